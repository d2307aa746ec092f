package org.lightledger.web;

import java.time.LocalDate;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;
import org.lightledger.sun.SunDirection;

/** How pages say days, hours, bearings and the side of the light. */
final class Words {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("EEE d MMM uuuu", Locale.ENGLISH);
  private static final DateTimeFormatter SHORT_DAY =
      DateTimeFormatter.ofPattern("d MMM uuuu", Locale.ENGLISH);
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  /** Within this turn the sun counts as straight behind the subject; degrees. */
  private static final double STRAIGHT_DEG = 8;

  private Words() {}

  static String day(LocalDate day) {
    return DAY.format(day);
  }

  static String shortDay(LocalDate day) {
    return SHORT_DAY.format(day);
  }

  static String days(LocalDate first, LocalDate last) {
    if (first.equals(last)) {
      return day(first);
    }
    return shortDay(first) + " to " + shortDay(last);
  }

  static String hour(LocalTime time) {
    return HOUR.format(time);
  }

  static String hour(OffsetDateTime at) {
    return HOUR.format(at);
  }

  static String moment(OffsetDateTime at) {
    return DAY.format(at) + ", " + HOUR.format(at);
  }

  static String window(OffsetDateTime from, OffsetDateTime to) {
    return hour(from) + " to " + hour(to);
  }

  static String bearing(Bearing bearing) {
    return String.format(Locale.ROOT, "%s %03.0f°", bearing.compassPoint(), whole(bearing));
  }

  static String altitude(SunDirection sun) {
    double altitudeDeg = sun.apparentAltitudeDeg();
    return altitudeDeg < 0
        ? String.format(Locale.ROOT, "%.1f° below the horizon", -altitudeDeg)
        : String.format(Locale.ROOT, "%.1f° high", altitudeDeg);
  }

  static String sun(SunDirection sun) {
    return bearing(sun.azimuth()) + ", " + altitude(sun);
  }

  static String degrees(double angleDeg) {
    return String.format(Locale.ROOT, "%.0f°", angleDeg);
  }

  static String fineDegrees(double angleDeg) {
    return String.format(Locale.ROOT, "%.1f°", angleDeg);
  }

  /** A number without a needless fraction. */
  static String plain(double value) {
    return value == Math.rint(value)
        ? String.format(Locale.ROOT, "%.0f", value)
        : String.format(Locale.ROOT, "%s", value);
  }

  static String count(int count, String one, String many) {
    return count + " " + (count == 1 ? one : many);
  }

  static String capital(String text) {
    return text.isEmpty()
        ? text
        : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }

  /** A light as one says it of a place: what a spot is. */
  static String lit(LightClass light) {
    return switch (light) {
      case BACKLIT, DARK -> light.label();
      case RIM, SIDE, FRONT, THREE_QUARTER_FRONT -> light.label() + "-lit";
      case OVERHEAD -> "lit from overhead";
      case OPEN_SHADE, TWILIGHT -> "in " + light.label();
    };
  }

  /**
   * Which side the light comes from, as the photographer sees it; "" where that does not matter.
   */
  static String side(LightClass light, double relativeBearingDeg) {
    String hand = relativeBearingDeg < 0 ? "left" : "right";
    return switch (light) {
      case BACKLIT ->
          Math.abs(relativeBearingDeg) <= STRAIGHT_DEG
              ? "straight from behind"
              : "from behind, a little to the " + hand;
      case RIM -> "from behind on the " + hand;
      case SIDE -> "from the " + hand;
      case THREE_QUARTER_FRONT -> "from the front " + hand;
      case FRONT -> "from behind the camera";
      case OVERHEAD, OPEN_SHADE, TWILIGHT, DARK -> "";
    };
  }

  private static double whole(Bearing bearing) {
    double rounded = Math.rint(bearing.trueDeg());
    return rounded >= 360 ? 0 : rounded;
  }
}
