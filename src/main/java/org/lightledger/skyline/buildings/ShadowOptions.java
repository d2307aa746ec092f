package org.lightledger.skyline.buildings;

import org.lightledger.skyline.LineOfSight;

/**
 * How shadows are cast.
 *
 * @param planeHeightM the level plane that catches them, above the foot of each obstruction, metres
 *     in [0, 1000]: 0 for the ground, {@link LineOfSight#EYE_HEIGHT_M} for faces
 * @param lineOfSight how light bends
 * @param longestM what lies farther from an outline than this is not looked at, metres in (0, 5000]
 */
public record ShadowOptions(double planeHeightM, LineOfSight lineOfSight, double longestM) {
  /** The plane around the middle of a box is exact enough this far, metres. */
  private static final double FARTHEST_M = 5000.0;

  /** The mean radius of the earth, metres: R1 of WGS 84 (Moritz 1980, GRS 80, rounded). */
  static final double EARTH_RADIUS_M = 6_371_009.0;

  /** The ground, refraction as in {@link LineOfSight}, two kilometres as for horizons. */
  public static final ShadowOptions STANDARD =
      new ShadowOptions(0.0, LineOfSight.STANDARD, BuildingOptions.STANDARD.rangeM());

  /**
   * Checks the options.
   *
   * @throws IllegalArgumentException when one is out of its interval or not a number
   */
  public ShadowOptions {
    if (!(planeHeightM >= 0.0 && planeHeightM <= Heights.HIGHEST_M)) {
      throw new IllegalArgumentException(
          "expected a plane in [0, 1000] metres above the ground, found " + planeHeightM);
    }
    if (!(longestM > 0.0 && longestM <= FARTHEST_M)) {
      throw new IllegalArgumentException(
          "expected a longest shadow in (0, 5000] metres, found " + longestM);
    }
  }

  /**
   * How far the shadow of a top reaches. At its end, a distance d away from the sun, the top's
   * apparent altitude is atan(h / d - d drop), and the sun stands lower than at the obstruction by
   * d over the earth's radius; where both are the same, a quadratic in d, the shadow ends.
   *
   * @param heightM of the top above the plane, more than 0
   * @param sunAltitudeDeg apparent, at the obstruction
   * @return metres; infinite when the sun is too low for the shadow to end
   */
  double reachM(double heightM, double sunAltitudeDeg) {
    double tangent = Math.tan(Math.toRadians(sunAltitudeDeg));
    double bend = (1.0 + tangent * tangent) / EARTH_RADIUS_M - lineOfSight.dropPerM2();
    double root = tangent * tangent - 4.0 * bend * heightM;
    return tangent > 0.0 && root >= 0.0
        ? 2.0 * heightM / (tangent + Math.sqrt(root))
        : Double.POSITIVE_INFINITY;
  }
}
