package org.lightledger.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.GeoPoint;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunEvening;

class SessionHoursTest {
  private static final GeoPoint REYKJAVIK = new GeoPoint(64.15, -21.94);
  private static final Terms HOUR = new Terms("Hour", 1, 1, 2, 60);

  private static SessionHours hours(String anchor, String date, String zone, GeoPoint place) {
    return hours(anchor, HOUR, date, zone, place);
  }

  private static SessionHours hours(
      String anchor, Terms terms, String date, String zone, GeoPoint place) {
    SunEvening evening =
        SunEvening.of(new SpaEphemeris(), place, ZoneId.of(zone), LocalDate.parse(date));
    return SessionHours.of(Anchor.parse(anchor), terms, evening);
  }

  /** Also on the days on which clocks change; a time that is left out moves on with the clocks. */
  @ParameterizedTest
  @CsvSource({
    "starts-16:00, 2026-06-30, Europe/Madrid, 2026-06-30T14:00:00Z",
    "ends-19:30, 2026-12-15, Europe/Madrid, 2026-12-15T17:30:00Z",
    "starts-01:30, 2026-03-29, Europe/Madrid, 2026-03-29T00:30:00Z",
    "starts-02:30, 2026-03-29, Europe/Madrid, 2026-03-29T01:30:00Z",
    "ends-04:00, 2026-10-25, Europe/Madrid, 2026-10-25T02:00:00Z",
    "ends-01:00, 2026-12-12, Europe/Madrid, 2026-12-11T23:00:00Z",
    "ends-00:30, 2026-12-12, Europe/Madrid, 2026-12-12T22:30:00Z",
    "ends-00:00, 2026-12-12, Europe/Madrid, 2026-12-12T22:00:00Z",
    "starts-23:30, 2026-12-12, Europe/Madrid, 2026-12-12T22:30:00Z",
    "starts-01:45, 2026-04-05, Australia/Lord_Howe, 2026-04-04T14:45:00Z",
  })
  void clockTimesAreThoseOfThePlace(String anchor, String date, String zone, String start) {
    SessionHours.Span span = hours(anchor, date, zone, new GeoPoint(42, -6)).span();
    assertThat(span)
        .isEqualTo(
            new SessionHours.Span(Instant.parse(start), Instant.parse(start).plusSeconds(3600)));
  }

  @Test
  void theSunsetFixesTheEnd() {
    SessionHours at = hours("ends-sunset", "2026-06-30", "Europe/Madrid", new GeoPoint(42, -6));
    SessionHours before =
        hours("ends-sunset-20", "2026-06-30", "Europe/Madrid", new GeoPoint(42, -6));
    Instant sunset = at.sun().sunset().orElseThrow();
    assertThat(at.span()).isEqualTo(new SessionHours.Span(sunset.minusSeconds(3600), sunset));
    assertThat(before.span())
        .isEqualTo(
            new SessionHours.Span(
                sunset.minus(Duration.ofMinutes(80)), sunset.minus(Duration.ofMinutes(20))));
  }

  /** In Reykjavik the sun of 20 June sets at 00:03 of the next day. */
  @Test
  void theSunsetIsTheOneThatFollowsTheNoonOfTheDay() {
    Terms walk = new Terms("Walk", 4, 1, 3, 150);
    SessionHours.Span span =
        hours("ends-sunset", walk, "2027-06-20", "Atlantic/Reykjavik", REYKJAVIK).span();
    assertThat(span).isNotNull();
    assertThat(span.end())
        .isBetween(Instant.parse("2027-06-21T00:02:00Z"), Instant.parse("2027-06-21T00:05:00Z"));
    assertThat(span.start()).isEqualTo(span.end().minus(Duration.ofMinutes(150)));
  }

  @Test
  void whatWouldStartOnTheDayBeforeIsNamed() {
    Terms long12 = new Terms("All day", 4, 1, 3, 720);
    SessionHours hours =
        hours("ends-sunset-300", long12, "2026-12-12", "Europe/Berlin", new GeoPoint(52.5, 13.4));
    assertThat(hours.span()).isNull();
    assertThat(hours.why())
        .isEqualTo("it would start on the day before; give a time of the clock instead");
  }

  @Test
  void aDayWithoutASunsetOrWithoutExistenceIsNamed() {
    SessionHours polar =
        hours("ends-sunset", "2026-06-21", "Europe/Oslo", new GeoPoint(71.2, 25.8));
    assertThat(polar.span()).isNull();
    assertThat(polar.why()).contains("give a time of the clock instead");
    assertThat(hours("ends-19:30", "2026-06-21", "Europe/Oslo", new GeoPoint(71.2, 25.8)).span())
        .isNotNull();
    SessionHours skipped =
        hours("starts-16:00", "2011-12-30", "Pacific/Apia", new GeoPoint(-13.8, -171.8));
    assertThat(skipped.span()).isNull();
    assertThat(skipped.why()).isEqualTo("this date does not exist here");
  }
}
