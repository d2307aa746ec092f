package org.lightledger.sun;

import java.time.Instant;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.lightledger.geo.Angles;
import org.lightledger.geo.GeoPoint;

/** Reads the fields of reference tables. */
final class SunRows {
  private SunRows() {}

  /** Puts a measured figure into the build's output. */
  static void tell(String what, double value) {
    System.out.println(String.format(Locale.ROOT, "measured: %s %.7f", what, value));
  }

  static String text(Map<String, String> row, String column) {
    return Objects.requireNonNull(row.get(column), column);
  }

  static boolean has(Map<String, String> row, String column) {
    return !text(row, column).isEmpty();
  }

  static double number(Map<String, String> row, String column) {
    return Double.parseDouble(text(row, column));
  }

  static SunEventKind kind(Map<String, SunEventKind> kinds, String name) {
    return Objects.requireNonNull(kinds.get(name), name);
  }

  static GeoPoint place(Map<String, String> row) {
    return new GeoPoint(number(row, "lat_deg"), number(row, "lon_deg_east"));
  }

  static Instant minute(String minute) {
    return Instant.parse(minute.replace("Z", ":00Z"));
  }

  /**
   * How far a direction is from a published one, degrees on the sky. A row with a true altitude is
   * compared with the geometric altitude; one with an apparent altitude alone, with the geometric
   * altitude lifted as its source does for its pressure and temperature.
   */
  static double missDeg(Map<String, String> row, SunDirection found) {
    double geometric = found.geometricAltitudeDeg();
    boolean isTrue = has(row, "alt_true_deg");
    double published = number(row, isTrue ? "alt_true_deg" : "alt_apparent_deg");
    double altitude =
        isTrue
            ? geometric
            : geometric + spaLiftDeg(geometric, number(row, "pressure_hPa"), number(row, "temp_C"));
    return Angles.gapDeg(
        number(row, "azimuth_from_north_deg"), published, found.azimuth().trueDeg(), altitude);
  }

  /**
   * The refraction of the Solar Position Algorithm, with its cut at the horizon (Reda and Andreas,
   * NREL/TP-560-34302, step 3.14.3).
   */
  static double spaLiftDeg(double geometricAltitudeDeg, double pressureHpa, double temperatureC) {
    if (geometricAltitudeDeg < -(0.26667 + 0.5667)) {
      return 0.0;
    }
    double argument = geometricAltitudeDeg + 10.3 / (geometricAltitudeDeg + 5.11);
    return pressureHpa
        / 1010.0
        * (283.0 / (273.0 + temperatureC))
        * 1.02
        / (60.0 * Math.tan(Math.toRadians(argument)));
  }
}
