package org.lightledger.sun;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;

/**
 * The evening of a local date: what follows its noon, until the next one. In summer at high
 * latitudes, or on clocks that are far ahead of the sun, it goes on after midnight.
 *
 * @param day what the sun does on the date itself
 * @param sunsetAt when the sun sets, or null when it does not
 * @param civilDuskAt when civil dusk ends the day, or null when it does not
 * @param absence why the sun does not set, "" when it does
 */
public record SunEvening(
    SunDay day, @Nullable Instant sunsetAt, @Nullable Instant civilDuskAt, String absence) {

  private static final Duration DAY = Duration.ofDays(1);

  /**
   * The evening of a date.
   *
   * @param ephemeris where the sun is
   * @param place where
   * @param zone the zone whose clocks the place keeps
   * @param date the local date
   * @return its evening; without a sunset when the date does not exist there
   * @throws IllegalArgumentException when the ephemeris does not serve the date
   */
  public static SunEvening of(SunEphemeris ephemeris, GeoPoint place, ZoneId zone, LocalDate date) {
    SunDay day = SunDay.of(ephemeris, place, zone, date);
    if (!(day instanceof SunDay.Lived)) {
      return new SunEvening(day, null, null, day.absence(SunEventKind.SUNSET).orElse(""));
    }
    Instant noon =
        day.event(SunEventKind.SOLAR_NOON)
            .orElseGet(() -> date.atTime(LocalTime.NOON).atZone(zone).toInstant());
    SunSearch search = SunSearch.over(ephemeris, place, noon, noon.plus(DAY));
    Instant sunset = setting(search, SunThreshold.HORIZON);
    return new SunEvening(
        day,
        sunset,
        setting(search, SunThreshold.CIVIL),
        sunset == null ? "no sunset: " + reason(search) : "");
  }

  private static @Nullable Instant setting(SunSearch search, SunThreshold threshold) {
    return search.crossings(threshold.geometricAltitudeDeg()).stream()
        .filter(crossing -> !crossing.rising())
        .map(SunCrossing::at)
        .findFirst()
        .orElse(null);
  }

  private static String reason(SunSearch search) {
    return switch (search.state(SunThreshold.HORIZON.geometricAltitudeDeg())) {
      case ALWAYS_UP -> "polar day, the sun stays up";
      case ALWAYS_DOWN -> "polar night, the sun stays down";
      case CROSSES -> "none follows the noon of this day";
    };
  }

  /**
   * When the sun sets.
   *
   * @return the instant, or nothing when it does not
   */
  public Optional<Instant> sunset() {
    return Optional.ofNullable(sunsetAt);
  }

  /**
   * When civil dusk is.
   *
   * @return the instant, or nothing when there is none
   */
  public Optional<Instant> civilDusk() {
    return Optional.ofNullable(civilDuskAt);
  }

  /**
   * Whose clocks.
   *
   * @return the zone of the place
   */
  public ZoneId zone() {
    return day.zone();
  }

  /**
   * Which day.
   *
   * @return the local date
   */
  public LocalDate date() {
    return day.date();
  }
}
