package org.lightledger.sun;

/**
 * How far the standard atmosphere (1010 hPa, 10 degrees Celsius) lifts the sun.
 *
 * <p>Sæmundsson's formula (Meeus, Astronomical Algorithms, 2nd ed. 1998, formula 16.4), good to
 * 0.07 arc minutes above the horizon. Below the horizon the value at -1 degree, where the formula
 * is still smooth, fades out linearly with the altitude's tangent so that the apparent altitude
 * stays continuous and increasing.
 */
public final class Refraction {
  private static final double LOWEST_DEG = -1.0;

  private Refraction() {}

  /**
   * The apparent altitude.
   *
   * @param geometricAltitudeDeg altitude without refraction, degrees in [-90, 90]
   * @return altitude with refraction, degrees in [-90, 90]
   */
  public static double apparentAltitudeDeg(double geometricAltitudeDeg) {
    double lifted = geometricAltitudeDeg + liftDeg(geometricAltitudeDeg);
    return Math.max(-90.0, Math.min(90.0, lifted));
  }

  private static double liftDeg(double geometricAltitudeDeg) {
    if (geometricAltitudeDeg >= LOWEST_DEG) {
      double argument = geometricAltitudeDeg + 10.3 / (geometricAltitudeDeg + 5.11);
      return Math.max(0.0, 1.02 / Math.tan(Math.toRadians(argument)) / 60.0);
    }
    return liftDeg(LOWEST_DEG)
        * Math.tan(Math.toRadians(LOWEST_DEG))
        / Math.tan(Math.toRadians(geometricAltitudeDeg));
  }
}
