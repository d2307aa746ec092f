package org.lightledger.session.outgoing;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.zone.ZoneOffsetTransition;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.lightledger.geo.GeoPoint;

/** Days, hours and places in plain words. */
final class Plainly {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("EEEE d MMMM uuuu", Locale.ENGLISH);
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);
  private static final DateTimeFormatter ZONE_NAME =
      DateTimeFormatter.ofPattern("zzzz", Locale.ENGLISH);

  /** How near a change of the clocks is worth a word, days: own choice. */
  private static final int CHANGE_DAYS = 3;

  private Plainly() {}

  static String day(LocalDate date) {
    return DAY.format(date);
  }

  static String hour(OffsetDateTime at) {
    return HOUR.format(at);
  }

  /** The zone's name on a day, its offset, and a change of the clocks in the days before. */
  static String zone(ZonedDateTime at) {
    String name = ZONE_NAME.format(at);
    String words =
        name + " (UTC" + (at.getOffset().getTotalSeconds() == 0 ? "" : at.getOffset()) + ")";
    LocalDate date = at.toLocalDate();
    ZoneId zone = at.getZone();
    ZoneOffsetTransition change =
        zone.getRules().nextTransition(date.minusDays(CHANGE_DAYS).atStartOfDay(zone).toInstant());
    if (change == null || change.getInstant().isAfter(at.toInstant())) {
      return words;
    }
    return words
        + "; the clocks there change on "
        + day(change.getDateTimeBefore().toLocalDate())
        + ", and these are the times after that";
  }

  /** Outfits in order, such as "outfit 1, then 2". */
  static String outfits(List<Integer> outfits) {
    return "outfit " + outfits.stream().map(String::valueOf).collect(Collectors.joining(", then "));
  }

  /** Five decimals, which is about a metre. */
  static String coordinates(GeoPoint place) {
    return String.format(Locale.ROOT, "%.5f, %.5f", place.latitudeDeg(), place.longitudeDeg());
  }

  /** The place as RFC 5870 writes it: WGS 84 latitude, longitude. */
  static String geoUri(GeoPoint place) {
    return String.format(Locale.ROOT, "geo:%.5f,%.5f", place.latitudeDeg(), place.longitudeDeg());
  }

  /**
   * A text without what neither a letter nor XML can hold: control characters other than a line
   * break, halves of surrogate pairs and non-characters become a space or vanish.
   */
  static String text(String text) {
    StringBuilder kept = new StringBuilder(text.length());
    text.replace("\r\n", "\n")
        .replace('\r', '\n')
        .codePoints()
        .forEach(
            point -> {
              if (point == '\n') {
                kept.append('\n');
              } else if (Character.isISOControl(point)) {
                kept.append(' ');
              } else if (Character.getType(point) != Character.SURROGATE
                  && (point & 0xfffe) != 0xfffe) {
                kept.appendCodePoint(point);
              }
            });
    return kept.toString().strip();
  }

  /** The same on one line. */
  static String line(String text) {
    return text(text).replaceAll("[\\s\\u2028\\u2029]+", " ");
  }
}
