package org.lightledger.skyline;

/**
 * How light runs over the curved earth: at a distance d a level line of sight stands d² times
 * {@link #dropPerM2} above the level surface it started from. The parabola stands for the circle;
 * with differences of height up to 3000 metres the altitude is off by less than 0.012 degrees, and
 * only where the altitude exceeds 20 degrees by more than 0.005.
 *
 * @param refraction the refraction coefficient: the earth's radius over the radius of the ray, in
 *     [0, 1)
 */
public record LineOfSight(double refraction) {

  /** The eye above the ground, metres: own choice, a standing subject's face or a raised camera. */
  public static final double EYE_HEIGHT_M = 1.6;

  /**
   * The refraction coefficient of geodesy: 0.13 (C. F. Gauss, from the triangulation of Hanover;
   * still the usual value, Torge and Müller, Geodesy, 4th ed. 2012, section 5.1).
   */
  public static final LineOfSight STANDARD = new LineOfSight(0.13);

  /** The mean radius of the earth, metres: R1 of WGS 84 (Moritz 1980, GRS 80, rounded). */
  private static final double EARTH_RADIUS_M = 6_371_009.0;

  /**
   * Checks the coefficient.
   *
   * @throws IllegalArgumentException when it is out of its interval or not a number
   */
  public LineOfSight {
    if (!(refraction >= 0.0 && refraction < 1.0)) {
      throw new IllegalArgumentException(
          "expected a refraction coefficient in [0, 1), found " + refraction);
    }
  }

  /**
   * How fast the ground falls away from the line of sight.
   *
   * @return metres of drop for each square metre of distance
   */
  public double dropPerM2() {
    return (1.0 - refraction) / (2.0 * EARTH_RADIUS_M);
  }

  /**
   * How much an altitude changes with the refraction coefficient.
   *
   * @param distanceM how far, metres
   * @return degrees for each unit of the coefficient
   */
  public static double degPerRefraction(double distanceM) {
    return Math.toDegrees(distanceM / (2.0 * EARTH_RADIUS_M));
  }
}
