package org.lightledger.sun;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.GeoPoint;

class SunEveningTest {
  private static final SunEphemeris SUN = new SpaEphemeris();

  private static SunEvening evening(String date, String zone, double latitude, double longitude) {
    return SunEvening.of(
        SUN, new GeoPoint(latitude, longitude), ZoneId.of(zone), LocalDate.parse(date));
  }

  /** The evening's sunset and dusk are those that the local day has on which they fall. */
  @ParameterizedTest
  @CsvSource({
    "2026-12-15, Europe/Madrid, 41.93, -6.42, 2026-12-15",
    "2026-06-30, Europe/Madrid, 41.93, -6.42, 2026-06-30",
    "2027-06-20, Atlantic/Reykjavik, 64.15, -21.94, 2027-06-21",
    "2027-05-20, Atlantic/Reykjavik, 64.15, -21.94, 2027-05-20",
    "2026-12-12, Z, 34.0, -118.2, 2026-12-13",
    "2026-11-25, Europe/Oslo, 69.65, 18.95, 2026-11-25",
  })
  void theSunsetFollowsTheNoonOfTheDate(
      String date, String zone, double latitude, double longitude, String fallsOn) {
    SunEvening evening = evening(date, zone, latitude, longitude);
    SunDay falls = SunDay.of(SUN, evening.day().place(), evening.zone(), LocalDate.parse(fallsOn));
    Instant first = falls.event(SunEventKind.SUNSET).orElseThrow();
    assertThat(Duration.between(evening.sunset().orElseThrow(), first).abs())
        .isLessThan(Duration.ofMillis(10));
    assertThat(evening.absence()).isEmpty();
    assertThat(evening.sunset().orElseThrow())
        .isAfter(evening.day().event(SunEventKind.SOLAR_NOON).orElseThrow());
  }

  @ParameterizedTest
  @CsvSource({
    "2026-06-21, Europe/Oslo, 71.2, 25.8, 'no sunset: polar day, the sun stays up'",
    "2026-12-21, Europe/Oslo, 71.2, 25.8, 'no sunset: polar night, the sun stays down'",
    "2011-12-30, Pacific/Apia, -13.8, -171.8, "
        + "'no sunset: the date 2011-12-30 does not exist in Pacific/Apia'",
  })
  void anEveningWithoutASunsetSaysWhy(
      String date, String zone, double latitude, double longitude, String why) {
    SunEvening evening = evening(date, zone, latitude, longitude);
    assertThat(evening.sunset()).isEmpty();
    assertThat(evening.absence()).isEqualTo(why);
  }

  @Test
  void civilDuskFollowsTheSunset() {
    SunEvening evening = evening("2026-12-15", "Europe/Madrid", 41.93, -6.42);
    Instant dusk = evening.day().event(SunEventKind.CIVIL_DUSK).orElseThrow();
    assertThat(Duration.between(evening.civilDusk().orElseThrow(), dusk).abs())
        .isLessThan(Duration.ofMillis(10));
    assertThat(evening("2027-06-20", "Atlantic/Reykjavik", 64.15, -21.94).civilDusk()).isEmpty();
  }
}
