package org.lightledger.exchange;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** The formats in which spots leave a ledger. */
public enum SpotFormat {
  /** GeoJSON (RFC 7946). */
  GEOJSON("GeoJSON", "application/geo+json", "geojson", "json"),
  /** KML 2.2 (OGC 07-147r2). */
  KML("KML", "application/vnd.google-earth.kml+xml", "kml"),
  /** GPX 1.1 (topografix.com/GPX/1/1). */
  GPX("GPX", "application/gpx+xml", "gpx"),
  /** GeoPackage 1.3 (OGC 12-128r17). */
  GPKG("GeoPackage", "application/geopackage+sqlite3", "gpkg");

  private final String label;
  private final String mediaType;
  private final List<String> endings;

  SpotFormat(String label, String mediaType, String... endings) {
    this.label = label;
    this.mediaType = mediaType;
    this.endings = List.of(endings);
  }

  /**
   * Its name on screens.
   *
   * @return for example "GeoJSON"
   */
  public String label() {
    return label;
  }

  /**
   * Its media type.
   *
   * @return as registered with IANA
   */
  public String mediaType() {
    return mediaType;
  }

  /**
   * Its word on the command line, which is the usual ending of its files as well.
   *
   * @return for example "geojson"
   */
  public String code() {
    return endings.get(0);
  }

  /**
   * Reads a code.
   *
   * @param code for example "gpx"; case does not matter
   * @return the format
   * @throws IllegalArgumentException naming what was found and what is possible
   */
  public static SpotFormat parse(String code) {
    String wanted = code.strip().toLowerCase(Locale.ROOT);
    for (SpotFormat format : values()) {
      if (format.code().equals(wanted)) {
        return format;
      }
    }
    throw new IllegalArgumentException("expected one of " + codes() + "; found \"" + code + "\"");
  }

  /**
   * The format that a file's name tells.
   *
   * @param fileName with its ending
   * @return the format, or nothing when the ending is another
   */
  public static Optional<SpotFormat> ofFile(String fileName) {
    String ending = fileName.substring(fileName.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT);
    return Arrays.stream(values()).filter(format -> format.endings.contains(ending)).findFirst();
  }

  /**
   * All codes.
   *
   * @return "geojson, kml, …"
   */
  public static String codes() {
    return Arrays.stream(values()).map(SpotFormat::code).collect(Collectors.joining(", "));
  }
}
