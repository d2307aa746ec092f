package org.lightledger.web.chart;

import java.util.List;
import org.lightledger.geo.Angles;
import org.lightledger.geo.Bearing;
import org.lightledger.sun.SunDirection;

/**
 * Maps the sky to the plot: azimuth to the right, apparent altitude up.
 *
 * @param middleDeg azimuth in the middle of the plot: where the sun stands highest
 * @param halfSpanDeg azimuths shown to either side of the middle, degrees in (0, 180]
 * @param lowDeg lowest altitude shown
 * @param highDeg highest altitude shown
 * @param left left edge of the plot, drawing units
 * @param right right edge
 * @param top top edge
 * @param bottom bottom edge
 */
record ChartScale(
    double middleDeg,
    double halfSpanDeg,
    double lowDeg,
    double highDeg,
    double left,
    double right,
    double top,
    double bottom) {
  /** Lowest altitude shown: the end of civil twilight. */
  static final double LOWEST_DEG = -6;

  /** Shows every azimuth at which the paths stand above the lowest altitude. */
  static ChartScale around(
      List<SunPath> paths, boolean north, double left, double right, double top, double bottom) {
    double middleDeg = north ? 180 : 0;
    double widest = 0;
    double highest = 10;
    for (SunPath path : paths) {
      for (SunDirection point : path.points()) {
        if (point.apparentAltitudeDeg() >= LOWEST_DEG) {
          widest = Math.max(widest, Math.abs(Angles.turnDeg(middleDeg, point.azimuth().trueDeg())));
        }
      }
      highest = Math.max(highest, path.highestDeg());
    }
    double halfSpanDeg = Math.min(180, Math.max(60, Math.ceil((widest + 4) / 15) * 15));
    double highDeg = Math.min(90, Math.ceil((highest + 3) / 10) * 10);
    return new ChartScale(middleDeg, halfSpanDeg, LOWEST_DEG, highDeg, left, right, top, bottom);
  }

  double x(Bearing azimuth) {
    return xOfTurn(Angles.turnDeg(middleDeg, azimuth.trueDeg()));
  }

  /** The place of a signed turn from the middle azimuth. */
  double xOfTurn(double turnDeg) {
    return left + (turnDeg + halfSpanDeg) / (2 * halfSpanDeg) * (right - left);
  }

  double y(double altitudeDeg) {
    return bottom - (altitudeDeg - lowDeg) / (highDeg - lowDeg) * (bottom - top);
  }

  boolean shows(SunDirection sun) {
    return sun.apparentAltitudeDeg() >= lowDeg
        && Math.abs(Angles.turnDeg(middleDeg, sun.azimuth().trueDeg())) <= halfSpanDeg;
  }
}
