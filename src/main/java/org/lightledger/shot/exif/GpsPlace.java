package org.lightledger.shot.exif;

import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Problem;

/**
 * Position, height and direction of a file's GPS block (Exif, CIPA DC-008, 4.6.6).
 *
 * @param position where the camera stood, or null
 * @param altitudeM height above sea level, metres, or null
 * @param positionErrorM horizontal error, metres, or null
 * @param direction where the camera looked, or null
 */
record GpsPlace(
    @Nullable GeoPoint position,
    @Nullable Double altitudeM,
    @Nullable Double positionErrorM,
    Evidence.@Nullable Direction direction) {
  /**
   * Datums that agree with WGS 84 to within two metres, below what a camera's receiver can tell:
   * ITRF-based national datums (JGD2000, ETRS89, NAD83, GDA94; from memory).
   */
  private static final Set<String> LIKE_WGS84 =
      Set.of(
          "WGS84",
          "WGS1984",
          "JGD2000",
          "JGD2011",
          "ETRS89",
          "NAD83",
          "GDA94",
          "GDA2020",
          "CGCS2000");

  private static final Pattern TEXT_DECIMAL = Pattern.compile("([+-]?\\d{1,3}\\.\\d+)");
  private static final Pattern TEXT_SEXAGESIMAL =
      Pattern.compile("(\\d{1,3})[, ]+(\\d{1,2}(?:\\.\\d+)?)[, ]+(\\d{1,2}(?:\\.\\d+)?)");

  /** Degrees, minutes and seconds, each with a decimal comma: six groups, not three. */
  private static final Pattern TEXT_DECIMAL_COMMAS =
      Pattern.compile("(\\d{1,3}),(\\d+),(\\d{1,2}),(\\d+),(\\d{1,2}),(\\d+)");

  /**
   * The lowest dry land, the shore of the Dead Sea, lies some 440 m below the sea (from memory).
   */
  private static final double LOWEST_GROUND_M = -500;

  static GpsPlace read(TagDirectory gps, Findings findings) {
    return new GpsPlace(
        position(gps, findings),
        altitudeM(gps, findings),
        positionErrorM(gps),
        direction(gps, findings));
  }

  private static @Nullable GeoPoint position(TagDirectory gps, Findings findings) {
    boolean latitudeWritten = isWritten(gps, Tags.GPS_LATITUDE);
    boolean longitudeWritten = isWritten(gps, Tags.GPS_LONGITUDE);
    if (!latitudeWritten && !longitudeWritten) {
      return null;
    }
    if (!latitudeWritten || !longitudeWritten) {
      refuse(
          findings,
          "it has a %s without a %s",
          latitudeWritten ? "latitude" : "longitude",
          latitudeWritten ? "longitude" : "latitude");
      return null;
    }
    Double latitude =
        coordinate(
            gps, Tags.GPS_LATITUDE, Tags.GPS_LATITUDE_REF, "latitude", "N", "S", 90, findings);
    if (latitude == null) {
      return null;
    }
    Double longitude =
        coordinate(
            gps, Tags.GPS_LONGITUDE, Tags.GPS_LONGITUDE_REF, "longitude", "E", "W", 180, findings);
    if (longitude == null) {
      return null;
    }
    GeoPoint point = new GeoPoint(latitude, longitude);
    if ("V".equals(gps.text(Tags.GPS_STATUS))) {
      refuse(
          findings,
          "the file says that the receiver had no fix (status V) when it wrote %s",
          point.toText());
      return null;
    }
    String datum = gps.text(Tags.GPS_MAP_DATUM);
    if (datum != null && !isLikeWgs84(datum)) {
      refuse(
          findings,
          "%s is written in the datum \"%s\", not WGS 84, and can lie hundreds of metres away",
          point.toText(),
          CameraClock.shortened(datum));
      return null;
    }
    return point;
  }

  static boolean isLikeWgs84(String datum) {
    StringBuilder name = new StringBuilder(datum.length());
    for (int i = 0; i < datum.length(); i++) {
      char c = datum.charAt(i);
      if (Character.isLetterOrDigit(c)) {
        name.append(c);
      }
    }
    return LIKE_WGS84.contains(name.toString().toUpperCase(Locale.ROOT));
  }

  /** All denominators 0 is the way of cameras to leave a place open. */
  private static boolean isWritten(TagDirectory gps, int tag) {
    List<Ratio> ratios = gps.ratios(tag);
    return ratios.isEmpty()
        ? gps.text(tag) != null
        : ratios.stream().anyMatch(ratio -> ratio.denominator() != 0);
  }

  private static @Nullable Double coordinate(
      TagDirectory gps,
      int tag,
      int refTag,
      String name,
      String positive,
      String negative,
      double limitDeg,
      Findings findings) {
    String ref = gps.text(refTag);
    if (ref == null || !(ref.equalsIgnoreCase(positive) || ref.equalsIgnoreCase(negative))) {
      refuse(
          findings,
          "its %s needs the letter %s or %s, but %s",
          name,
          positive,
          negative,
          ref == null ? "has none" : "has \"" + CameraClock.shortened(ref) + "\"");
      return null;
    }
    List<Ratio> parts = gps.ratios(tag);
    Double degrees;
    String written;
    if (parts.isEmpty()) {
      written = String.valueOf(gps.text(tag));
      degrees = fromText(written);
      if (degrees != null) {
        findings.damaged(
            "The %s is written as text \"%s\" instead of three rationals; it is read as %.6f degrees.",
            name, CameraClock.shortened(written), degrees);
      }
    } else {
      written = parts.stream().limit(4).map(Ratio::toString).collect(Collectors.joining(" "));
      degrees = fromRatios(parts);
      if (degrees != null && parts.size() == 3 && parts.get(2).denominator() == 0) {
        findings.damaged(
            "The seconds of the %s are not known (%s); degrees and minutes are used.",
            name, parts.get(2));
      }
    }
    if (degrees == null || !(degrees >= 0 && degrees <= limitDeg)) {
      refuse(
          findings,
          "its %s reads %s; expected degrees in [0, %d], minutes and seconds below 60",
          name,
          CameraClock.shortened(written),
          (int) limitDeg);
      return null;
    }
    return ref.equalsIgnoreCase(positive) ? degrees : 0.0 - degrees;
  }

  /**
   * Degrees of one, two or three rationals, or null when they are no angle. Seconds that are not
   * known leave degrees and minutes, which is within 1.9 km; minutes or degrees that are not known
   * leave nothing.
   */
  static @Nullable Double fromRatios(List<Ratio> parts) {
    if (parts.isEmpty() || parts.size() > 3) {
      return null;
    }
    Double degrees = parts.get(0).value();
    Double minutes = parts.size() > 1 ? parts.get(1).value() : Double.valueOf(0);
    Double seconds = 0.0;
    if (parts.size() > 2 && parts.get(2).denominator() != 0) {
      seconds = parts.get(2).value();
    }
    if (degrees == null || minutes == null || seconds == null) {
      return null;
    }
    return fromParts(degrees, minutes, seconds);
  }

  /** Degrees of a coordinate that was written as text, or null. */
  static @Nullable Double fromText(String text) {
    Matcher decimal = TEXT_DECIMAL.matcher(text);
    if (decimal.matches()) {
      return Double.valueOf(decimal.group(1));
    }
    Matcher commas = TEXT_DECIMAL_COMMAS.matcher(text);
    if (commas.matches()) {
      return fromParts(
          Double.parseDouble(commas.group(1) + "." + commas.group(2)),
          Double.parseDouble(commas.group(3) + "." + commas.group(4)),
          Double.parseDouble(commas.group(5) + "." + commas.group(6)));
    }
    Matcher sexagesimal = TEXT_SEXAGESIMAL.matcher(text);
    return sexagesimal.matches()
        ? fromParts(
            Double.parseDouble(sexagesimal.group(1)),
            Double.parseDouble(sexagesimal.group(2)),
            Double.parseDouble(sexagesimal.group(3)))
        : null;
  }

  /** Seconds of exactly 60 come from rounding and are let pass. */
  private static @Nullable Double fromParts(double degrees, double minutes, double seconds) {
    boolean isAngle = degrees >= 0 && minutes >= 0 && minutes < 60 && seconds >= 0 && seconds <= 60;
    return isAngle ? Double.valueOf(degrees + minutes / 60 + seconds / 3600) : null;
  }

  private static void refuse(Findings findings, String format, Object... values) {
    findings.add(
        Problem.Kind.POSITION_REFUSED,
        "The position of the file is not used: " + format + ".",
        values);
  }

  /**
   * Altitude reference 0 is above and 1 below sea level; Exif 3.0 adds 2 and 3 for the ellipsoid,
   * which differs from sea level by up to 107 m and is therefore not taken.
   */
  private static @Nullable Double altitudeM(TagDirectory gps, Findings findings) {
    Ratio ratio = gps.ratio(Tags.GPS_ALTITUDE);
    Double size = ratio == null ? null : ratio.value();
    Long ref = gps.integer(Tags.GPS_ALTITUDE_REF);
    if (size == null || (ref != null && ref > 1)) {
      return null;
    }
    double altitude = ref != null && ref == 1 ? 0.0 - size : size;
    if (altitude < LOWEST_GROUND_M) {
      findings.damaged(
          "The altitude reads %.0f m, lower than any ground; it is not used.", altitude);
      return null;
    }
    return altitude;
  }

  private static @Nullable Double positionErrorM(TagDirectory gps) {
    Ratio ratio = gps.ratio(Tags.GPS_H_POSITIONING_ERROR);
    return ratio == null ? null : ratio.positiveValue();
  }

  private static Evidence.@Nullable Direction direction(TagDirectory gps, Findings findings) {
    Ratio ratio = gps.ratio(Tags.GPS_IMG_DIRECTION);
    if (ratio == null) {
      return null;
    }
    return direction(ratio, gps.text(Tags.GPS_IMG_DIRECTION_REF), findings);
  }

  /** Exif allows 0.00 to 359.99; a full 360 is north as well. */
  static Evidence.@Nullable Direction direction(
      Ratio ratio, @Nullable String ref, Findings findings) {
    Double azimuth = ratio.value();
    if (azimuth == null || !(azimuth >= 0 && azimuth <= 360)) {
      findings.add(
          Problem.Kind.DIRECTION_REFUSED,
          "The direction of the file reads %s; expected degrees in [0, 360); it is not used.",
          ratio);
      return null;
    }
    Evidence.North north =
        "T".equalsIgnoreCase(ref)
            ? Evidence.North.TRUE
            : "M".equalsIgnoreCase(ref) ? Evidence.North.MAGNETIC : Evidence.North.NOT_STATED;
    return new Evidence.Direction(azimuth == 360 ? 0 : azimuth, north);
  }
}
