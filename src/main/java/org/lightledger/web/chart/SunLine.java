package org.lightledger.web.chart;

import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Angles;
import org.lightledger.geo.Bearing;
import org.lightledger.sun.SunDirection;

/**
 * A path of the sun as lines of the chart: one for where the sun reaches the spot as far as is
 * known, one for where the skyline hides it.
 */
final class SunLine {
  /** Halvings between two points of a path, which are up to two degrees apart. */
  private static final int HALVINGS = 8;

  private final ChartScale scale;
  private final @Nullable SkylineShape skyline;
  private final Part open = new Part();
  private final Part hidden = new Part();

  /** One line, as the data of a path. */
  private final class Part {
    private final StringBuilder data = new StringBuilder();
    private @Nullable SunDirection end;

    void append(SunDirection from, SunDirection to) {
      if (end != from) {
        point('M', from);
      }
      point('L', to);
      end = to;
    }

    private void point(char verb, SunDirection sun) {
      data.append(verb)
          .append(Drawing.number(scale.x(sun.azimuth())))
          .append(' ')
          .append(Drawing.number(scale.y(sun.apparentAltitudeDeg())));
    }
  }

  private SunLine(ChartScale scale, @Nullable SkylineShape skyline) {
    this.scale = scale;
    this.skyline = skyline;
  }

  static void draw(
      Drawing drawing,
      String cssClass,
      SunPath path,
      ChartScale scale,
      @Nullable SkylineShape skyline) {
    SunLine line = new SunLine(scale, skyline);
    SunDirection last = null;
    for (SunDirection point : path.points()) {
      boolean shown = scale.shows(point);
      if (last != null && shown && !line.wraps(last, point)) {
        line.add(last, point);
      }
      last = shown ? point : null;
    }
    if (!line.hidden.data.isEmpty()) {
      drawing.path(cssClass + " p-hidden", line.hidden.data.toString());
    }
    if (!line.open.data.isEmpty()) {
      drawing.path(cssClass, line.open.data.toString());
    }
  }

  private boolean wraps(SunDirection one, SunDirection other) {
    return Math.abs(scale.x(one.azimuth()) - scale.x(other.azimuth()))
        > (scale.right() - scale.left()) / 2;
  }

  private void add(SunDirection from, SunDirection to) {
    boolean hiddenFrom = isHidden(from);
    if (hiddenFrom == isHidden(to)) {
      (hiddenFrom ? hidden : open).append(from, to);
      return;
    }
    SunDirection inside = from;
    SunDirection outside = to;
    for (int i = 0; i < HALVINGS; i++) {
      SunDirection middle = between(inside, outside);
      if (isHidden(middle) == hiddenFrom) {
        inside = middle;
      } else {
        outside = middle;
      }
    }
    (hiddenFrom ? hidden : open).append(from, inside);
    (hiddenFrom ? open : hidden).append(inside, to);
  }

  private boolean isHidden(SunDirection sun) {
    return skyline != null && skyline.hides(sun);
  }

  private static SunDirection between(SunDirection one, SunDirection other) {
    double turnDeg = Angles.turnDeg(one.azimuth().trueDeg(), other.azimuth().trueDeg());
    return new SunDirection(
        Bearing.of(one.azimuth().trueDeg() + turnDeg / 2),
        (one.geometricAltitudeDeg() + other.geometricAltitudeDeg()) / 2,
        (one.apparentAltitudeDeg() + other.apparentAltitudeDeg()) / 2);
  }
}
