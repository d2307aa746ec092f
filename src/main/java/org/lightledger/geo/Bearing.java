package org.lightledger.geo;

/**
 * A true bearing on the ground.
 *
 * @param trueDeg degrees clockwise from true north, in [0, 360)
 */
public record Bearing(double trueDeg) {
  private static final String[] POINTS = {
    "N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW",
    "NNW"
  };

  /**
   * Checks the bearing.
   *
   * @throws IllegalArgumentException when it lies outside [0, 360) or is not a number
   */
  public Bearing {
    if (!(trueDeg >= 0.0 && trueDeg < 360.0)) {
      throw new IllegalArgumentException(
          "expected a bearing in [0, 360) degrees, found " + trueDeg);
    }
  }

  /**
   * The bearing of any finite angle, brought into [0, 360).
   *
   * @param angleDeg degrees clockwise from true north
   * @return the bearing
   */
  public static Bearing of(double angleDeg) {
    return new Bearing(Angles.normalizeDeg(angleDeg));
  }

  /**
   * The signed turn from this bearing to another.
   *
   * @param other where to turn
   * @return degrees in (-180, 180], positive clockwise
   */
  public double turnToDeg(Bearing other) {
    return Angles.turnDeg(trueDeg, other.trueDeg);
  }

  /**
   * The nearest of the sixteen compass points.
   *
   * @return "N", "NNE", … "NNW"
   */
  public String compassPoint() {
    return POINTS[(int) Math.floor(trueDeg / 22.5 + 0.5) % 16];
  }
}
