package org.lightledger.web.chart;

import org.lightledger.light.LightClass;

/**
 * The light on a subject, seen from above with the camera below: the side of the subject that is
 * lit, and the side the sun stands on. It says by shape what its word says, without colour.
 */
public final class LightGlyph {
  private static final double SUBJECT_RADIUS = 8.5;
  private static final double SUN_DISTANCE = 17;
  private static final double SUN_RADIUS = 3.7;
  private static final Polar AROUND_SUBJECT = new Polar(22, 21.5);

  private LightGlyph() {}

  /**
   * The glyph of a class, with the sun in the middle of the class on the right-hand side.
   *
   * @param light the class
   * @return the drawing; its word has to stand beside it
   */
  public static Svg of(LightClass light) {
    return of(light, typicalTurnDeg(light));
  }

  /**
   * The glyph of a light as it falls, with the sun on its true side.
   *
   * @param light the class
   * @param relativeBearingDeg signed turn from the facing to the sun, degrees in (-180, 180]
   * @return the drawing; its word has to stand beside it
   */
  public static Svg of(LightClass light, double relativeBearingDeg) {
    Drawing drawing = Drawing.decorative("glyph glyph-" + light.code(), 44, 44);
    switch (light) {
      case OVERHEAD -> overhead(drawing);
      case OPEN_SHADE -> openShade(drawing, relativeBearingDeg);
      case TWILIGHT -> twilight(drawing);
      case DARK -> dark(drawing);
      case BACKLIT, RIM, SIDE, THREE_QUARTER_FRONT, FRONT -> direct(drawing, relativeBearingDeg);
    }
    return camera(drawing).finish();
  }

  /** A turn in the middle of the class; 0 where the side of the sun does not matter. */
  static double typicalTurnDeg(LightClass light) {
    return switch (light) {
      case BACKLIT -> 0;
      case RIM, OPEN_SHADE -> 52;
      case SIDE -> 90;
      case THREE_QUARTER_FRONT -> 127;
      case FRONT -> 180;
      case OVERHEAD, TWILIGHT, DARK -> 0;
    };
  }

  private static void direct(Drawing drawing, double turnDeg) {
    subject(drawing, "g-shade");
    drawing.path("g-lit", AROUND_SUBJECT.half(turnDeg, SUBJECT_RADIUS));
    outline(drawing);
    ray(drawing, turnDeg, SUBJECT_RADIUS);
    sun(drawing, "g-sun", turnDeg);
  }

  private static void openShade(Drawing drawing, double turnDeg) {
    subject(drawing, "g-soft");
    outline(drawing);
    drawing.path("g-wall", AROUND_SUBJECT.ring(turnDeg - 48, turnDeg + 48, 10.6, 12.8));
    sun(drawing, "g-sun", turnDeg);
  }

  private static void overhead(Drawing drawing) {
    subject(drawing, "g-lit");
    outline(drawing);
    for (int turnDeg = 0; turnDeg < 360; turnDeg += 45) {
      if (turnDeg != 180) {
        drawing.line(
            "g-ray",
            AROUND_SUBJECT.x(turnDeg, 11.5),
            AROUND_SUBJECT.y(turnDeg, 11.5),
            AROUND_SUBJECT.x(turnDeg, 15.5),
            AROUND_SUBJECT.y(turnDeg, 15.5));
      }
    }
    drawing.circle("g-sun", AROUND_SUBJECT.centreX(), AROUND_SUBJECT.centreY(), SUN_RADIUS);
  }

  private static void twilight(Drawing drawing) {
    subject(drawing, "g-soft");
    outline(drawing);
    drawing.line("g-line", 7, 3.5, 37, 3.5);
    drawing.path("g-hollow", "M17 3.5A5 5 0 0 0 27 3.5");
  }

  private static void dark(Drawing drawing) {
    subject(drawing, "g-shade");
    outline(drawing);
    drawing.circle("g-star", 9, 8, 1.4);
    drawing.circle("g-star", 23, 4.5, 1.4);
    drawing.circle("g-star", 36, 10, 1.4);
  }

  private static void subject(Drawing drawing, String cssClass) {
    drawing.circle(cssClass, AROUND_SUBJECT.centreX(), AROUND_SUBJECT.centreY(), SUBJECT_RADIUS);
  }

  private static void outline(Drawing drawing) {
    subject(drawing, "g-outline");
  }

  private static void sun(Drawing drawing, String cssClass, double turnDeg) {
    drawing.circle(
        cssClass,
        AROUND_SUBJECT.x(turnDeg, SUN_DISTANCE),
        AROUND_SUBJECT.y(turnDeg, SUN_DISTANCE),
        SUN_RADIUS);
  }

  private static void ray(Drawing drawing, double turnDeg, double upTo) {
    drawing.line(
        "g-ray",
        AROUND_SUBJECT.x(turnDeg, SUN_DISTANCE),
        AROUND_SUBJECT.y(turnDeg, SUN_DISTANCE),
        AROUND_SUBJECT.x(turnDeg, upTo),
        AROUND_SUBJECT.y(turnDeg, upTo));
  }

  private static Drawing camera(Drawing drawing) {
    return drawing.path("g-camera", "M18 36.4L22 33L26 36.4");
  }
}
