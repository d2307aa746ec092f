package org.lightledger.sun;

import java.time.Instant;
import org.lightledger.geo.Angles;

/**
 * The sun by the Solar Position Algorithm (SPA): Reda and Andreas, Solar Position Algorithm for
 * Solar Radiation Applications, NREL/TP-560-34302 (2003, revised 2008). Numbers in square brackets
 * below are that report's steps.
 *
 * <p><b>How exact.</b> The algorithm's own uncertainty is 0.0003 degrees. Instants are UTC and are
 * taken as UT1, which the earth's rotation has kept within 0.9 seconds, or 0.004 degrees of hour
 * angle, of UTC since 1972; declination, and so an altitude at noon, is not touched by this. Before
 * 1972 and in the future an instant means mean solar time at Greenwich.
 *
 * <p>Served from {@link #FIRST} until {@link #END}, the years for which {@link DeltaT} is stated.
 *
 * <p>Immutable; safe for use by several threads.
 */
public final class SpaEphemeris implements SunEphemeris {
  /** The first instant served. */
  public static final Instant FIRST = Instant.parse("1700-01-01T00:00:00Z");

  /** The first instant no longer served. */
  public static final Instant END = Instant.parse("2300-01-01T00:00:00Z");

  /** 2000-01-01 12:00, the epoch J2000, in seconds of the Unix clock. */
  private static final long J2000_EPOCH_SECOND = 946_728_000L;

  private static final double SECONDS_PER_DAY = 86_400.0;
  private static final double DAYS_PER_CENTURY = 36_525.0;

  /** Constant of aberration with the mean orbital speed, arc seconds [3.6.1]. */
  private static final double ABERRATION_ARCSEC = 20.4898;

  /** Table A4.2 is in 1e-8 radians or astronomical units. */
  private static final double EARTH_TABLE_UNIT = 1e-8;

  /** Table A4.3 is in 0.0001 arc seconds. */
  private static final double NUTATION_TABLE_UNITS_PER_DEG = 36_000_000.0;

  /**
   * The five angles of the nutation, degrees, as polynomials of the Julian century [3.4.1-3.4.5]:
   * the moon's elongation, the sun's anomaly, the moon's anomaly, the moon's argument of latitude,
   * the longitude of the moon's ascending node.
   */
  private static final double[][] NUTATION_ANGLES = {
    {297.85036, 445267.111480, -0.0019142, 1.0 / 189474},
    {357.52772, 35999.050340, -0.0001603, -1.0 / 300000},
    {134.96298, 477198.867398, 0.0086972, 1.0 / 56250},
    {93.27191, 483202.017538, -0.0036825, 1.0 / 327270},
    {125.04452, -1934.136261, 0.0020708, 1.0 / 450000},
  };

  /** Mean obliquity of the ecliptic, arc seconds, polynomial of ten Julian millennia [3.5.1]. */
  private static final double[] OBLIQUITY_ARCSEC = {
    84381.448, -4680.93, -1.55, 1999.25, -51.38, -249.67, -39.05, 7.12, 27.87, 5.79, 2.45
  };

  /** No multiple in table A4.3 is larger. */
  private static final int LARGEST_MULTIPLE = 3;

  @Override
  public SubsolarPoint at(Instant instant) {
    if (instant.isBefore(FIRST) || !instant.isBefore(END)) {
      throw new IllegalArgumentException(
          "the sun is known from " + FIRST + " until " + END + ", asked for " + instant);
    }
    return at(instant, DeltaT.secondsAt(daysSinceJ2000(instant)));
  }

  /** As {@link #at(Instant)}, for a stated Delta T, as published examples have one. */
  SubsolarPoint at(Instant instant, double deltaTSeconds) {
    Steps steps = steps(instant, deltaTSeconds);
    return new SubsolarPoint(
        steps.declinationDeg(),
        Angles.normalizeDeg(steps.siderealTimeDeg() - steps.rightAscensionDeg()));
  }

  /**
   * The intermediate values, so that a test can locate a wrong term.
   *
   * @param heliocentricLongitudeDeg [3.2.6], not reduced to the circle
   * @param heliocentricLatitudeDeg [3.2.7]
   * @param radiusAu [3.2.8]
   * @param nutationInLongitudeDeg [3.4.7]
   * @param nutationInObliquityDeg [3.4.8]
   * @param obliquityDeg true obliquity [3.5.2]
   * @param apparentLongitudeDeg [3.7], not reduced to the circle
   * @param siderealTimeDeg apparent, at Greenwich [3.8.3], not reduced to the circle
   * @param rightAscensionDeg geocentric [3.9], in (-180, 180]
   * @param declinationDeg geocentric [3.10]
   */
  record Steps(
      double heliocentricLongitudeDeg,
      double heliocentricLatitudeDeg,
      double radiusAu,
      double nutationInLongitudeDeg,
      double nutationInObliquityDeg,
      double obliquityDeg,
      double apparentLongitudeDeg,
      double siderealTimeDeg,
      double rightAscensionDeg,
      double declinationDeg) {}

  Steps steps(Instant instant, double deltaTSeconds) {
    double days = daysSinceJ2000(instant);
    double century = (days + deltaTSeconds / SECONDS_PER_DAY) / DAYS_PER_CENTURY;
    double millennium = century / 10.0;

    double longitude = SpaTerms.evaluate(SpaTerms.LONGITUDE, millennium) * EARTH_TABLE_UNIT;
    double latitude = SpaTerms.evaluate(SpaTerms.LATITUDE, millennium) * EARTH_TABLE_UNIT;
    double radiusAu = SpaTerms.evaluate(SpaTerms.RADIUS, millennium) * EARTH_TABLE_UNIT;

    double[] nutation = nutationDeg(century);
    double obliquityDeg = polynomial(OBLIQUITY_ARCSEC, millennium / 10.0) / 3600.0 + nutation[1];
    double aberrationDeg = -ABERRATION_ARCSEC / 3600.0 / radiusAu;
    double apparentLongitudeDeg = Math.toDegrees(longitude) + 180.0 + nutation[0] + aberrationDeg;

    double lambda = Math.toRadians(apparentLongitudeDeg);
    double beta = -latitude;
    double epsilon = Math.toRadians(obliquityDeg);
    double sinLambda = Math.sin(lambda);
    double sinEpsilon = Math.sin(epsilon);
    double cosEpsilon = Math.cos(epsilon);
    double sinBeta = Math.sin(beta);
    double cosBeta = Math.cos(beta);
    double rightAscension =
        Math.atan2(sinLambda * cosEpsilon - sinBeta / cosBeta * sinEpsilon, Math.cos(lambda));
    double declination = Math.asin(sinBeta * cosEpsilon + cosBeta * sinEpsilon * sinLambda);

    return new Steps(
        Math.toDegrees(longitude),
        Math.toDegrees(latitude),
        radiusAu,
        nutation[0],
        nutation[1],
        obliquityDeg,
        apparentLongitudeDeg,
        meanSiderealTimeDeg(days) + nutation[0] * cosEpsilon,
        Math.toDegrees(rightAscension),
        Math.toDegrees(declination));
  }

  /** Mean sidereal time at Greenwich [3.8.1]; whole turns of whole days left out. */
  private static double meanSiderealTimeDeg(double days) {
    double century = days / DAYS_PER_CENTURY;
    return 280.46061837
        + 360.0 * (days - Math.floor(days))
        + 0.98564736629 * days
        + 0.000387933 * century * century
        - century * century * century / 38_710_000.0;
  }

  /**
   * Nutation in longitude and obliquity, degrees [3.4]. The sine and cosine of each of the five
   * angles are taken once; those of their sums follow by multiplying complex numbers.
   */
  private static double[] nutationDeg(double century) {
    int width = 2 * LARGEST_MULTIPLE + 1;
    double[] cos = new double[NUTATION_ANGLES.length * width];
    double[] sin = new double[NUTATION_ANGLES.length * width];
    for (int angle = 0; angle < NUTATION_ANGLES.length; angle++) {
      double radians = Math.toRadians(polynomial(NUTATION_ANGLES[angle], century) % 360.0);
      double cosOne = Math.cos(radians);
      double sinOne = Math.sin(radians);
      int zero = angle * width + LARGEST_MULTIPLE;
      cos[zero] = 1.0;
      for (int multiple = 1; multiple <= LARGEST_MULTIPLE; multiple++) {
        double cosBefore = cos[zero + multiple - 1];
        double sinBefore = sin[zero + multiple - 1];
        cos[zero + multiple] = cosBefore * cosOne - sinBefore * sinOne;
        sin[zero + multiple] = sinBefore * cosOne + cosBefore * sinOne;
        cos[zero - multiple] = cos[zero + multiple];
        sin[zero - multiple] = -sin[zero + multiple];
      }
    }
    double longitude = 0.0;
    double obliquity = 0.0;
    for (double[] term : SpaTerms.NUTATION) {
      double re = 1.0;
      double im = 0.0;
      for (int angle = 0; angle < NUTATION_ANGLES.length; angle++) {
        int multiple = (int) term[angle];
        if (multiple != 0) {
          int at = angle * width + LARGEST_MULTIPLE + multiple;
          double turned = re * cos[at] - im * sin[at];
          im = re * sin[at] + im * cos[at];
          re = turned;
        }
      }
      longitude += (term[5] + term[6] * century) * im;
      obliquity += (term[7] + term[8] * century) * re;
    }
    return new double[] {
      longitude / NUTATION_TABLE_UNITS_PER_DEG, obliquity / NUTATION_TABLE_UNITS_PER_DEG
    };
  }

  private static double daysSinceJ2000(Instant instant) {
    double seconds =
        (instant.getEpochSecond() - J2000_EPOCH_SECOND) + instant.getNano() / 1_000_000_000.0;
    return seconds / SECONDS_PER_DAY;
  }

  private static double polynomial(double[] coefficients, double x) {
    double sum = 0.0;
    for (int i = coefficients.length - 1; i >= 0; i--) {
      sum = sum * x + coefficients[i];
    }
    return sum;
  }
}
