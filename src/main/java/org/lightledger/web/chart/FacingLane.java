package org.lightledger.web.chart;

import java.util.List;
import java.util.Locale;
import org.lightledger.geo.Angles;
import org.lightledger.light.LightClass;
import org.lightledger.light.LightRules;
import org.lightledger.spot.Facing;

/** The strip under the chart that names the light along one facing for every azimuth of the sun. */
final class FacingLane {
  private static final double LETTER_WIDTH = 6.4;

  private FacingLane() {}

  static void draw(Drawing drawing, ChartScale scale, Facing facing, double top, double height) {
    drawing.text(
        "p-lane-name",
        scale.left(),
        top - 4,
        "start",
        String.format(
            Locale.ROOT,
            "facing %s %.0f°, sun above the horizon and below %.0f°",
            facing.bearing().compassPoint(),
            facing.bearing().trueDeg(),
            LightRules.OVERHEAD_ABOVE_DEG));
    double middleTurnDeg = Angles.turnDeg(scale.middleDeg(), facing.bearing().trueDeg());
    for (int turns = -1; turns <= 1; turns++) {
      segments(drawing, scale, middleTurnDeg + 360.0 * turns, top, height);
    }
  }

  private static void segments(
      Drawing drawing, ChartScale scale, double middleTurnDeg, double top, double height) {
    List<Double> thresholds = LightRules.TURN_THRESHOLDS_DEG;
    double innerDeg = 0;
    for (int i = 0; i <= thresholds.size(); i++) {
      double outerDeg = i < thresholds.size() ? thresholds.get(i) : 180;
      LightClass light = LightRules.classify(10, 10, (innerDeg + outerDeg) / 2);
      if (i == 0) {
        segment(
            drawing, scale, light, middleTurnDeg - outerDeg, middleTurnDeg + outerDeg, top, height);
      } else {
        segment(
            drawing, scale, light, middleTurnDeg + innerDeg, middleTurnDeg + outerDeg, top, height);
        segment(
            drawing, scale, light, middleTurnDeg - outerDeg, middleTurnDeg - innerDeg, top, height);
      }
      innerDeg = outerDeg;
    }
  }

  private static void segment(
      Drawing drawing,
      ChartScale scale,
      LightClass light,
      double fromTurnDeg,
      double toTurnDeg,
      double top,
      double height) {
    double from = Math.max(fromTurnDeg, -scale.halfSpanDeg());
    double to = Math.min(toTurnDeg, scale.halfSpanDeg());
    if (from >= to) {
      return;
    }
    double left = scale.xOfTurn(from);
    double width = scale.xOfTurn(to) - left;
    drawing.rect("lane lane-" + light.code(), left, top, width, height);
    String word = light == LightClass.THREE_QUARTER_FRONT ? "¾ front" : light.label();
    if (word.length() * LETTER_WIDTH + 6 <= width) {
      drawing.text(
          "lane-text on-" + light.code(), left + width / 2, top + height / 2 + 4, "middle", word);
    }
  }
}
