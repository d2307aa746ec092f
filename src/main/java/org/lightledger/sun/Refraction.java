package org.lightledger.sun;

/**
 * How far the standard atmosphere (1010 hPa, 10 degrees Celsius) lifts the sun.
 *
 * <p>From -1 degree up: Sæmundsson's formula (Meeus, Astronomical Algorithms, 2nd ed. 1998, formula
 * 16.4), good to 0.07 arc minutes above the horizon, taken as zero at the zenith where it turns
 * negative by 0.002 arc minutes.
 *
 * <p>Below -1 degree no air path reaches an eye on level ground, so any value is a convention. Here
 * the lift at -1 degree (0.65 degrees) fades as the tangent of the depression grows, to nothing at
 * the nadir. So the apparent altitude is defined everywhere, continuous, and always grows with the
 * geometric altitude. Other conventions: the Solar Position Algorithm has no lift below -0.83
 * degrees, JPL Horizons keeps about 0.65 degrees.
 *
 * <p>Near the horizon real air differs from the standard by its temperature and layering: commonly
 * by 0.1 degrees, seldom by more than 0.5 (Schaefer and Liller 1990, Refraction near the horizon,
 * from memory). Rise, set and twilights therefore go by the geometric altitude of {@link
 * SunThreshold}, and not by this class.
 */
public final class Refraction {
  private static final double LOWEST_DEG = -1.0;

  private Refraction() {}

  /**
   * The apparent altitude.
   *
   * @param geometricAltitudeDeg altitude without refraction, degrees in [-90, 90]
   * @return altitude with refraction, degrees in [-90, 90]
   * @throws IllegalArgumentException when the altitude is out of its interval or not a number
   */
  public static double apparentAltitudeDeg(double geometricAltitudeDeg) {
    if (!(geometricAltitudeDeg >= -90.0 && geometricAltitudeDeg <= 90.0)) {
      throw new IllegalArgumentException(
          "expected an altitude in [-90, 90] degrees, found " + geometricAltitudeDeg);
    }
    double lift =
        geometricAltitudeDeg >= LOWEST_DEG
            ? saemundssonDeg(geometricAltitudeDeg)
            : saemundssonDeg(LOWEST_DEG)
                * Math.tan(Math.toRadians(LOWEST_DEG))
                / Math.tan(Math.toRadians(geometricAltitudeDeg));
    return Math.min(90.0, geometricAltitudeDeg + lift);
  }

  private static double saemundssonDeg(double geometricAltitudeDeg) {
    double argument = geometricAltitudeDeg + 10.3 / (geometricAltitudeDeg + 5.11);
    return Math.max(0.0, 1.02 / Math.tan(Math.toRadians(argument)) / 60.0);
  }
}
