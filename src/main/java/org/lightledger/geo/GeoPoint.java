package org.lightledger.geo;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * A place on the WGS 84 ellipsoid.
 *
 * @param latitudeDeg geodetic latitude, degrees north, in [-90, 90]
 * @param longitudeDeg longitude, degrees east, in [-180, 180]
 */
public record GeoPoint(double latitudeDeg, double longitudeDeg) {

  /**
   * Checks the place.
   *
   * @throws IllegalArgumentException when a coordinate is out of its interval or not a number
   */
  public GeoPoint {
    if (!(latitudeDeg >= -90.0 && latitudeDeg <= 90.0)) {
      throw new IllegalArgumentException(
          "expected a latitude in [-90, 90] degrees, found " + latitudeDeg);
    }
    if (!(longitudeDeg >= -180.0 && longitudeDeg <= 180.0)) {
      throw new IllegalArgumentException(
          "expected a longitude in [-180, 180] degrees, found " + longitudeDeg);
    }
  }

  /**
   * Reads "LAT,LON" in decimal degrees with a point as the decimal sign.
   *
   * @param text for example "41.95,-6.61"
   * @return the place
   * @throws IllegalArgumentException naming what was found and what was expected
   */
  public static GeoPoint parse(String text) {
    int comma = text.indexOf(',');
    if (comma > 0 && comma == text.lastIndexOf(',')) {
      try {
        return new GeoPoint(
            Double.parseDouble(text.substring(0, comma).strip()),
            Double.parseDouble(text.substring(comma + 1).strip()));
      } catch (NumberFormatException e) {
        throw unreadable(text, e);
      }
    }
    throw unreadable(text, null);
  }

  private static IllegalArgumentException unreadable(String text, @Nullable Exception cause) {
    return new IllegalArgumentException(
        "expected LAT,LON in decimal degrees such as 41.95,-6.61, found \"" + text + "\"", cause);
  }

  /**
   * The place as "LAT,LON" with six decimals, which is about a tenth of a metre.
   *
   * @return text that {@link #parse} reads
   */
  public String toText() {
    return String.format(Locale.ROOT, "%.6f,%.6f", latitudeDeg, longitudeDeg);
  }
}
