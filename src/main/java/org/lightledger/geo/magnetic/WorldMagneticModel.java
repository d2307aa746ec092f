package org.lightledger.geo.magnetic;

import static java.nio.charset.StandardCharsets.US_ASCII;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import org.lightledger.geo.GeoPoint;

/**
 * The World Magnetic Model: spherical harmonics of the earth's main field to degree and order 12
 * (Chulliat et al., "The US/UK World Magnetic Model for 2020-2025: Technical Report", NOAA NCEI and
 * British Geological Survey, 2020; equation numbers below are of its section 1.2). Coefficients of
 * NOAA NCEI and BGS, public domain. Each model holds for five years; the error of the declination
 * is about 0.4 degrees in middle latitudes (same report, section 3.4), apart from the local fields
 * of buildings, cars and rocks.
 */
public final class WorldMagneticModel {
  private static final int DEGREE = 12;

  /** Reference radius of the model, metres (the report's a in equation 4). */
  private static final double REFERENCE_RADIUS_M = 6_371_200;

  /** WGS 84 (NIMA TR8350.2). */
  private static final double SEMI_MAJOR_AXIS_M = 6_378_137;

  private static final double FLATTENING = 1 / 298.257223563;
  private static final double ECCENTRICITY_SQUARED = FLATTENING * (2 - FLATTENING);

  private static final int VALID_YEARS = 5;

  /**
   * At a pole east and north have no meaning and equation 11 divides by 0; the field is taken this
   * far from it, 0.1 mm away.
   */
  private static final double LEAST_COS_LATITUDE = 1e-11;

  private static final List<WorldMagneticModel> MODELS =
      List.of(
          load("WMM_2010.COF"), load("WMM_2015v2.COF"), load("WMM_2020.COF"), load("WMM_2025.COF"));

  private final double epoch;
  private final double[][] g = new double[DEGREE + 1][DEGREE + 1];
  private final double[][] h = new double[DEGREE + 1][DEGREE + 1];
  private final double[][] gRate = new double[DEGREE + 1][DEGREE + 1];
  private final double[][] hRate = new double[DEGREE + 1][DEGREE + 1];

  private WorldMagneticModel(double epoch) {
    this.epoch = epoch;
  }

  /**
   * The field at a place and time.
   *
   * @param place where
   * @param heightM height above the ellipsoid, metres; sea level is as good, it differs by 0.1 km
   * @param when the time
   * @return the field, or nothing when no model holds for the time
   */
  public static Optional<MagneticField> field(GeoPoint place, double heightM, Instant when) {
    return field(place, heightM, decimalYear(when));
  }

  /**
   * The field at a place and time.
   *
   * @param place where
   * @param heightM height above the ellipsoid, metres
   * @param decimalYear the time in years, such as 2024.5
   * @return the field, or nothing when no model holds for the time
   * @throws IllegalArgumentException when the height is not finite or the year is not a number
   */
  public static Optional<MagneticField> field(GeoPoint place, double heightM, double decimalYear) {
    if (!Double.isFinite(heightM) || Double.isNaN(decimalYear)) {
      throw new IllegalArgumentException(
          "expected a height in metres and a decimal year, found " + heightM + ", " + decimalYear);
    }
    return MODELS.stream()
        .filter(model -> decimalYear >= model.epoch && decimalYear < model.epoch + VALID_YEARS)
        .findFirst()
        .map(model -> model.fieldAt(place, heightM, decimalYear));
  }

  /**
   * The years for which a model holds.
   *
   * @return such as "2010 to 2029"
   */
  public static String validYears() {
    return Math.round(MODELS.get(0).epoch)
        + " to "
        + (Math.round(MODELS.get(MODELS.size() - 1).epoch) + VALID_YEARS - 1);
  }

  private static double decimalYear(Instant when) {
    OffsetDateTime utc = when.atOffset(ZoneOffset.UTC);
    double days = utc.getDayOfYear() - 1 + utc.toLocalTime().toNanoOfDay() / 86_400e9;
    return utc.getYear() + days / utc.toLocalDate().lengthOfYear();
  }

  private MagneticField fieldAt(GeoPoint place, double heightM, double decimalYear) {
    double latitude = Math.toRadians(place.latitudeDeg());
    double longitude = Math.toRadians(place.longitudeDeg());
    // Geodetic to geocentric (equations 7 and 8).
    double sin = Math.sin(latitude);
    double cos = Math.cos(latitude);
    double curvatureM = SEMI_MAJOR_AXIS_M / Math.sqrt(1 - ECCENTRICITY_SQUARED * sin * sin);
    double p = (curvatureM + heightM) * cos;
    double z = (curvatureM * (1 - ECCENTRICITY_SQUARED) + heightM) * sin;
    double radiusM = Math.hypot(p, z);
    double sinGeocentric = z / radiusM;
    double cosGeocentric = Math.max(LEAST_COS_LATITUDE, p / radiusM);
    double[][] legendre = new double[DEGREE + 1][DEGREE + 1];
    double[][] derivative = new double[DEGREE + 1][DEGREE + 1];
    legendre(sinGeocentric, cosGeocentric, legendre, derivative);

    double years = decimalYear - epoch;
    double[][] gNow = new double[DEGREE + 1][DEGREE + 1];
    double[][] hNow = new double[DEGREE + 1][DEGREE + 1];
    for (int n = 1; n <= DEGREE; n++) {
      for (int m = 0; m <= n; m++) {
        gNow[n][m] = g[n][m] + years * gRate[n][m];
        hNow[n][m] = h[n][m] + years * hRate[n][m];
      }
    }
    Basis basis =
        new Basis(legendre, derivative, cosGeocentric, longitude, REFERENCE_RADIUS_M / radiusM);
    double[] field = basis.sum(gNow, hNow);
    double[] rate = basis.sum(gRate, hRate);
    // From the geocentric to the geodetic vertical (equations 17 and 18).
    double tilt = Math.atan2(sinGeocentric, cosGeocentric) - latitude;
    double cosTilt = Math.cos(tilt);
    double sinTilt = Math.sin(tilt);
    return new MagneticField(
        field[0] * cosTilt - field[2] * sinTilt,
        field[1],
        field[0] * sinTilt + field[2] * cosTilt,
        rate[0] * cosTilt - rate[2] * sinTilt,
        rate[1],
        rate[0] * sinTilt + rate[2] * cosTilt);
  }

  /** The harmonics at one place, to be summed with any set of coefficients. */
  private record Basis(
      double[][] legendre,
      double[][] derivative,
      double cosGeocentric,
      double longitude,
      double radiusRatio) {

    /**
     * Sums the series (equations 10 to 12 for the field, 13 to 15 for its change).
     *
     * @return north, east and downward component in geocentric axes
     */
    double[] sum(double[][] g, double[][] h) {
      double[] sum = new double[3];
      double power = radiusRatio * radiusRatio;
      for (int n = 1; n <= DEGREE; n++) {
        power *= radiusRatio;
        for (int m = 0; m <= n; m++) {
          double cosM = Math.cos(m * longitude);
          double sinM = Math.sin(m * longitude);
          double even = g[n][m] * cosM + h[n][m] * sinM;
          double odd = g[n][m] * sinM - h[n][m] * cosM;
          sum[0] -= power * even * derivative[n][m];
          sum[1] += power * m * odd * legendre[n][m] / cosGeocentric;
          sum[2] -= (n + 1) * power * even * legendre[n][m];
        }
      }
      return sum;
    }
  }

  /**
   * Schmidt semi-normalised associated Legendre functions of the sine of the geocentric latitude
   * (equations 5 and 6, without the Condon-Shortley phase) and their derivatives by the latitude,
   * by the usual recursions of the Gauss-normalised functions carried over to Schmidt's norm.
   */
  private static void legendre(double sin, double cos, double[][] p, double[][] dp) {
    p[0][0] = 1;
    for (int n = 1; n <= DEGREE; n++) {
      for (int m = 0; m <= n; m++) {
        if (m == n) {
          double factor = n == 1 ? 1 : Math.sqrt((2.0 * n - 1) / (2.0 * n));
          p[n][n] = factor * cos * p[n - 1][n - 1];
          dp[n][n] = factor * (cos * dp[n - 1][n - 1] - sin * p[n - 1][n - 1]);
        } else {
          double root = Math.sqrt((double) n * n - (double) m * m);
          double first = (2.0 * n - 1) / root;
          double second = n < 2 ? 0 : Math.sqrt((n - 1.0) * (n - 1.0) - (double) m * m) / root;
          double older = n < 2 || m > n - 2 ? 0 : p[n - 2][m];
          double olderDerivative = n < 2 || m > n - 2 ? 0 : dp[n - 2][m];
          p[n][m] = first * sin * p[n - 1][m] - second * older;
          dp[n][m] = first * (sin * dp[n - 1][m] + cos * p[n - 1][m]) - second * olderDerivative;
        }
      }
    }
  }

  /** Reads a coefficient file: epoch in the first line, then n, m, g, h and their yearly change. */
  private static WorldMagneticModel load(String name) {
    try (InputStream in = WorldMagneticModel.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException("the program lacks its resource " + name);
      }
      BufferedReader lines = new BufferedReader(new InputStreamReader(in, US_ASCII));
      String header = lines.readLine();
      if (header == null) {
        throw new IllegalStateException("the program's resource " + name + " is empty");
      }
      WorldMagneticModel model =
          new WorldMagneticModel(Double.parseDouble(header.strip().split("\\s+")[0]));
      int count = 0;
      for (String line = lines.readLine();
          line != null && !line.startsWith("9999");
          line = lines.readLine()) {
        String[] fields = line.strip().split("\\s+");
        int n = Integer.parseInt(fields[0]);
        int m = Integer.parseInt(fields[1]);
        model.g[n][m] = Double.parseDouble(fields[2]);
        model.h[n][m] = Double.parseDouble(fields[3]);
        model.gRate[n][m] = Double.parseDouble(fields[4]);
        model.hRate[n][m] = Double.parseDouble(fields[5]);
        count++;
      }
      if (count != DEGREE * (DEGREE + 3) / 2) {
        throw new IllegalStateException(
            "the program's resource " + name + " has " + count + " coefficients, expected 90");
      }
      return model;
    } catch (IOException e) {
      throw new UncheckedIOException("the program's resource " + name + " can not be read", e);
    }
  }
}
