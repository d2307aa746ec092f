package org.lightledger.sun;

/**
 * Delta T: by how many seconds the even time of the planets (Terrestrial Time) runs ahead of the
 * earth's rotation (Universal Time, UT1).
 *
 * <p>Polynomials of Espenak and Meeus, Five Millennium Canon of Solar Eclipses
 * (NASA/TP-2006-214141, 2006, section 2.6), for the years 1700 to 2300. Past values are good to a
 * second or two; future ones are guesses, by 2200 perhaps two minutes off, in which time the sun
 * moves 0.0014 degrees against the stars.
 */
final class DeltaT {
  private static final double MEAN_GREGORIAN_YEAR_DAYS = 365.2425;

  private DeltaT() {}

  /**
   * Delta T at an instant.
   *
   * @param daysSinceJ2000 days since 2000-01-01 12:00, in the years 1700 to 2300
   * @return seconds
   */
  static double secondsAt(double daysSinceJ2000) {
    return secondsInYear(2000.0 + daysSinceJ2000 / MEAN_GREGORIAN_YEAR_DAYS);
  }

  /**
   * Delta T in a year.
   *
   * @param year year with fraction, in 1700 to 2300
   * @return seconds
   */
  static double secondsInYear(double year) {
    if (year < 1800) {
      return polynomial(year - 1700, 8.83, 0.1603, -0.0059285, 0.00013336, -1.0 / 1174000);
    }
    if (year < 1860) {
      return polynomial(
          year - 1800,
          13.72,
          -0.332447,
          0.0068612,
          0.0041116,
          -0.00037436,
          0.0000121272,
          -0.0000001699,
          0.000000000875);
    }
    if (year < 1900) {
      return polynomial(
          year - 1860, 7.62, 0.5737, -0.251754, 0.01680668, -0.0004473624, 1.0 / 233174);
    }
    if (year < 1920) {
      return polynomial(year - 1900, -2.79, 1.494119, -0.0598939, 0.0061966, -0.000197);
    }
    if (year < 1941) {
      return polynomial(year - 1920, 21.20, 0.84493, -0.076100, 0.0020936);
    }
    if (year < 1961) {
      return polynomial(year - 1950, 29.07, 0.407, -1.0 / 233, 1.0 / 2547);
    }
    if (year < 1986) {
      return polynomial(year - 1975, 45.45, 1.067, -1.0 / 260, -1.0 / 718);
    }
    if (year < 2005) {
      return polynomial(
          year - 2000, 63.86, 0.3345, -0.060374, 0.0017275, 0.000651814, 0.00002373599);
    }
    if (year < 2050) {
      return polynomial(year - 2000, 62.92, 0.32217, 0.005589);
    }
    double parabola = polynomial((year - 1820) / 100, -20, 0, 32);
    return year < 2150 ? parabola - 0.5628 * (2150 - year) : parabola;
  }

  private static double polynomial(double x, double... coefficients) {
    double sum = 0.0;
    for (int i = coefficients.length - 1; i >= 0; i--) {
      sum = sum * x + coefficients[i];
    }
    return sum;
  }
}
