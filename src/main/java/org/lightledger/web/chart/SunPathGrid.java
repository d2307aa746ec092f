package org.lightledger.web.chart;

import java.util.Locale;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightRules;

/** The axes and lines behind the sun's paths. */
final class SunPathGrid {
  private SunPathGrid() {}

  /** What lies behind the silhouette. */
  static void lines(Drawing drawing, ChartScale scale, SunPathChart.Size size) {
    double horizon = scale.y(0);
    drawing.rect(
        "p-below", scale.left(), horizon, scale.right() - scale.left(), scale.bottom() - horizon);
    for (int altitudeDeg = 10; altitudeDeg <= scale.highDeg(); altitudeDeg += 10) {
      drawing.line(
          "p-grid", scale.left(), scale.y(altitudeDeg), scale.right(), scale.y(altitudeDeg));
    }
    int step = azimuthStepDeg(size);
    int span = (int) scale.halfSpanDeg() / step * step;
    for (int turnDeg = -span; turnDeg <= span; turnDeg += step) {
      double x = scale.xOfTurn(turnDeg);
      drawing.line("p-grid", x, scale.top(), x, scale.bottom());
    }
  }

  /** What stands before the silhouette. */
  static void labels(Drawing drawing, ChartScale scale, SunPathChart.Size size) {
    for (int altitudeDeg = 0; altitudeDeg <= scale.highDeg(); altitudeDeg += 10) {
      drawing.text("p-label", scale.left() - 5, scale.y(altitudeDeg) + 4, "end", altitudeDeg + "°");
    }
    drawing.line("p-horizon", scale.left(), scale.y(0), scale.right(), scale.y(0));
    int step = azimuthStepDeg(size);
    int span = (int) scale.halfSpanDeg() / step * step;
    for (int turnDeg = -span; turnDeg <= span; turnDeg += step) {
      if (turnDeg % 45 == 0) {
        Bearing azimuth = Bearing.of(scale.middleDeg() + turnDeg);
        double x = scale.xOfTurn(turnDeg);
        drawing.text("p-label p-point", x, scale.bottom() + 15, "middle", azimuth.compassPoint());
        drawing.text(
            "p-label",
            x,
            scale.bottom() + 28,
            "middle",
            String.format(Locale.ROOT, "%.0f°", azimuth.trueDeg()));
      }
    }
    if (scale.highDeg() > LightRules.OVERHEAD_ABOVE_DEG) {
      double y = scale.y(LightRules.OVERHEAD_ABOVE_DEG);
      drawing.line("p-overhead", scale.left(), y, scale.right(), y);
      drawing.text("p-note", scale.left() + 6, y - 5, "start", "overhead above here");
    }
  }

  private static int azimuthStepDeg(SunPathChart.Size size) {
    return size == SunPathChart.Size.WIDE ? 15 : 45;
  }
}
