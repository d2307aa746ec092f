package org.lightledger.web.chart;

import java.util.List;
import java.util.Locale;
import org.lightledger.light.LightClass;
import org.lightledger.light.LightRules;

/** The light classes around a subject, drawn from the thresholds of {@link LightRules}. */
public final class LightRing {
  private static final Polar POLAR = new Polar(180, 180);
  private static final double INNER = 86;
  private static final double OUTER = 148;
  private static final double MIDDLE = (INNER + OUTER) / 2;

  private LightRing() {}

  /**
   * The ring: where the sun has to stand, seen from above with the camera below.
   *
   * @return the drawing with words for screen readers
   */
  public static Svg draw() {
    Drawing drawing =
        Drawing.described(
            "ring",
            360,
            360,
            "img",
            "light-ring",
            new Drawing.Words("Where the sun stands for each light", description()));
    List<LightClass> classes =
        List.of(
            LightClass.BACKLIT,
            LightClass.RIM,
            LightClass.SIDE,
            LightClass.THREE_QUARTER_FRONT,
            LightClass.FRONT);
    double fromDeg = 0;
    for (int i = 0; i < classes.size(); i++) {
      boolean last = i == LightRules.TURN_THRESHOLDS_DEG.size();
      double toDeg = last ? 180 : LightRules.TURN_THRESHOLDS_DEG.get(i);
      String cssClass = "lane lane-" + classes.get(i).code();
      if (i == 0) {
        drawing.path(cssClass, POLAR.ring(-toDeg, toDeg, INNER, OUTER));
      } else if (last) {
        drawing.path(cssClass, POLAR.ring(fromDeg, 360 - fromDeg, INNER, OUTER));
      } else {
        drawing.path(cssClass, POLAR.ring(fromDeg, toDeg, INNER, OUTER));
        drawing.path(cssClass, POLAR.ring(-toDeg, -fromDeg, INNER, OUTER));
      }
      if (!last) {
        threshold(drawing, toDeg);
        threshold(drawing, -toDeg);
      }
      fromDeg = toDeg;
    }
    label(drawing, "backlit", LightClass.BACKLIT, 0);
    label(drawing, "front", LightClass.FRONT, 180);
    for (int side : new int[] {-1, 1}) {
      label(drawing, "rim", LightClass.RIM, side * 52.5);
      label(drawing, "side", LightClass.SIDE, side * 90);
      label(drawing, "¾ front", LightClass.THREE_QUARTER_FRONT, side * 127.5);
    }
    drawing.circle("g-soft", 180, 176, 28).circle("g-outline", 180, 176, 28);
    drawing.text("ring-word", 180, 180, "middle", "subject");
    drawing.path("ring-camera", "M169 238L180 222L191 238Z");
    drawing.text("ring-word", 180, 254, "middle", "camera");
    return drawing.finish();
  }

  private static void threshold(Drawing drawing, double turnDeg) {
    drawing.line(
        "ring-tick",
        POLAR.x(turnDeg, OUTER),
        POLAR.y(turnDeg, OUTER),
        POLAR.x(turnDeg, OUTER + 7),
        POLAR.y(turnDeg, OUTER + 7));
    drawing.text(
        "ring-degree",
        POLAR.x(turnDeg, OUTER + 20),
        POLAR.y(turnDeg, OUTER + 18) + 4,
        "middle",
        String.format(Locale.ROOT, "%.0f°", Math.abs(turnDeg)));
  }

  private static void label(Drawing drawing, String word, LightClass light, double turnDeg) {
    drawing.text(
        "lane-text on-" + light.code(),
        POLAR.x(turnDeg, MIDDLE),
        POLAR.y(turnDeg, MIDDLE) + 4,
        "middle",
        word);
  }

  private static String description() {
    return String.format(
        Locale.ROOT,
        "The turn from where the camera looks to the sun, to either side: backlit up to %.0f"
            + " degrees, rim up to %.0f, side up to %.0f, three-quarter front up to %.0f, front"
            + " beyond.",
        LightRules.BACKLIT_UP_TO_DEG,
        LightRules.RIM_UP_TO_DEG,
        LightRules.SIDE_UP_TO_DEG,
        LightRules.THREE_QUARTER_FRONT_UP_TO_DEG);
  }
}
