package org.lightledger.web.chart;

import java.util.List;
import java.util.Locale;
import org.lightledger.light.LightClass;
import org.lightledger.light.LightRules;

/** The light classes around a subject, drawn from the thresholds of {@link LightRules}. */
public final class LightRing {
  private static final Polar POLAR = new Polar(180, 180);

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
      double toDeg =
          i < LightRules.TURN_THRESHOLDS_DEG.size()
              ? LightRules.TURN_THRESHOLDS_DEG.get(i)
              : 180;
      String cssClass = "lane lane-" + classes.get(i).code();
      drawing.path(cssClass, POLAR.ring(fromDeg, toDeg, 74, 140));
      drawing.path(cssClass, POLAR.ring(-toDeg, -fromDeg, 74, 140));
      if (toDeg < 180) {
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
      double turnDeg = side * 127.5;
      drawing.text(
          "lane-text on-three-quarter-front",
          POLAR.x(turnDeg, 107),
          POLAR.y(turnDeg, 107) - 3,
          "middle",
          "three-quarter");
      drawing.text(
          "lane-text on-three-quarter-front",
          POLAR.x(turnDeg, 107),
          POLAR.y(turnDeg, 107) + 11,
          "middle",
          "front");
    }
    drawing.circle("g-soft", 180, 180, 26).circle("g-outline", 180, 180, 26);
    drawing.text("ring-word", 180, 184, "middle", "subject");
    drawing.path("ring-camera", "M168 254L180 236L192 254Z");
    drawing.text("ring-word", 198, 253, "start", "camera");
    return drawing.finish();
  }

  private static void threshold(Drawing drawing, double turnDeg) {
    drawing.line(
        "ring-tick",
        POLAR.x(turnDeg, 140),
        POLAR.y(turnDeg, 140),
        POLAR.x(turnDeg, 147),
        POLAR.y(turnDeg, 147));
    drawing.text(
        "ring-degree",
        POLAR.x(turnDeg, 162),
        POLAR.y(turnDeg, 160) + 4,
        "middle",
        String.format(Locale.ROOT, "%.0f°", Math.abs(turnDeg)));
  }

  private static void label(Drawing drawing, String word, LightClass light, double turnDeg) {
    drawing.text(
        "lane-text on-" + light.code(),
        POLAR.x(turnDeg, 107),
        POLAR.y(turnDeg, 107) + 4,
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
