package org.lightledger.light;

/**
 * The sun's light on level ground from the zenith down to the end of twilight: P. M. Janiczek and
 * J. A. DeYoung, Computer Programs for Sun and Moon Illuminance, US Naval Observatory Circular 171
 * (1987), the subroutine ATMOS and the statements that use it. It is a fit to D. R. E. Brown,
 * Natural Illumination Charts (US Navy, 1952), by the authors' word good to one or two digits from
 * the zenith to nautical twilight. The moon is left out.
 */
final class NaturalLight {
  /** The sun outside the air, lux. */
  private static final double SUN_LUX = 133_775;

  /** The sky of a night without a moon, lux. */
  private static final double NIGHT_SKY_LUX = 0.0005;

  /** The earth's radius over the height of the homogeneous atmosphere. */
  private static final double RADIUS_IN_AIR_HEIGHTS = 753.66156;

  private static final double EXTINCTION = 0.21;
  private static final double SCATTERED_EXTINCTION = 0.042;
  private static final double SCATTERED_SHARE = 0.0289;

  private NaturalLight() {}

  /**
   * Illuminance of level ground under a clear sky.
   *
   * @param apparentAltitudeDeg the sun's altitude, degrees in [-90, 90]
   * @return lux, more than 0
   */
  static double horizontalLux(double apparentAltitudeDeg) {
    double altitude = Math.toRadians(apparentAltitudeDeg);
    double sine = Math.sin(altitude);
    double topCosine =
        Math.cos(
            Math.asin(RADIUS_IN_AIR_HEIGHTS * Math.cos(altitude) / (RADIUS_IN_AIR_HEIGHTS + 1.0)));
    double airMass = RADIUS_IN_AIR_HEIGHTS * (topCosine - sine) + topCosine;
    double share =
        Math.exp(-EXTINCTION * airMass) * sine
            + SCATTERED_SHARE
                * Math.exp(-SCATTERED_EXTINCTION * airMass)
                * (1.0 + Math.toRadians(apparentAltitudeDeg + 90.0) * sine);
    return SUN_LUX * share + NIGHT_SKY_LUX;
  }
}
