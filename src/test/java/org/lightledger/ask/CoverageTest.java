package org.lightledger.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.ask.Coverage.Season;
import org.lightledger.ask.Coverage.Time;
import org.lightledger.geo.GeoPoint;
import org.lightledger.spot.Observation;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunEphemeris;

class CoverageTest {
  private static final SunEphemeris SUN = new SpaEphemeris();
  private static final GeoPoint NORTH = new GeoPoint(41.95, -6.61);
  private static final GeoPoint ARCTIC = new GeoPoint(78.0, 15.0);

  private static Coverage of(GeoPoint place, String... moments) {
    List<Observation> observations =
        Arrays.stream(moments)
            .map(OffsetDateTime::parse)
            .map(at -> new Observation(1, at, SUN.direction(at.toInstant(), place), null, null))
            .toList();
    return Coverage.of(SUN, place, observations);
  }

  /** The solstices and equinoxes of 2026 as almanacs give them, an hour before and after. */
  @ParameterizedTest
  @CsvSource({
    "2026-03-20T13:46:00Z, WINTER, SUMMER",
    "2026-03-20T15:46:00Z, SPRING, AUTUMN",
    "2026-06-21T06:24:00Z, SPRING, AUTUMN",
    "2026-06-21T10:24:00Z, SUMMER, WINTER",
    "2026-09-22T23:05:00Z, SUMMER, WINTER",
    "2026-09-23T01:05:00Z, AUTUMN, SPRING",
    "2026-12-21T18:50:00Z, AUTUMN, SPRING",
    "2026-12-21T22:50:00Z, WINTER, SUMMER"
  })
  void theSeasonIsTheQuarterOfTheHemisphere(String at, Season north, Season south) {
    assertThat(Coverage.season(SUN, NORTH, Instant.parse(at))).isEqualTo(north);
    assertThat(Coverage.season(SUN, new GeoPoint(-33, 18), Instant.parse(at))).isEqualTo(south);
  }

  /** On 1 October 2026 the sun rises there at 06:22, culminates at 12:16, sets at 18:10 UTC. */
  @ParameterizedTest
  @CsvSource({
    "06:05, TWILIGHT",
    "06:40, FIRST_HOUR",
    "07:10, FIRST_HOUR",
    "07:35, MORNING",
    "10:05, MORNING",
    "10:30, MIDDAY",
    "14:05, MIDDAY",
    "14:30, AFTERNOON",
    "17:00, AFTERNOON",
    "17:25, LAST_HOUR",
    "18:00, LAST_HOUR",
    "18:25, TWILIGHT"
  })
  void theTimeIsThatOfTheSun(String hour, Time time) {
    Instant at = Instant.parse("2026-10-01T" + hour + ":00Z");

    assertThat(Coverage.time(SUN, NORTH, at)).contains(time);
  }

  @Test
  void theNightIsNoTime() {
    assertThat(Coverage.time(SUN, NORTH, Instant.parse("2026-10-01T00:00:00Z"))).isEmpty();
    assertThat(of(NORTH, "2026-10-01T00:00:00Z").seen()).isZero();
  }

  @Test
  void southOfTheEquatorTheMorningIsTheMorningToo() {
    GeoPoint cape = new GeoPoint(-33.9, 18.4);

    assertThat(Coverage.time(SUN, cape, Instant.parse("2026-12-21T07:00:00Z")))
        .contains(Time.MORNING);
    assertThat(Coverage.time(SUN, cape, Instant.parse("2026-12-21T14:30:00Z")))
        .contains(Time.AFTERNOON);
  }

  @Test
  void shotsAreCountedWhereTheyBelong() {
    Coverage coverage =
        of(NORTH, "2026-10-01T17:30:00Z", "2025-11-10T12:00:00Z", "2026-10-05T17:40:00Z");

    assertThat(coverage.count(Season.AUTUMN, Time.LAST_HOUR)).isEqualTo(2);
    assertThat(coverage.count(Season.AUTUMN, Time.MIDDAY)).isEqualTo(1);
    assertThat(coverage.count(Season.WINTER, Time.MIDDAY)).isZero();
    assertThat(coverage.seen()).isEqualTo(2);
    assertThat(coverage.inAll()).isEqualTo(24);
  }

  @Test
  void theGapsAreSaidInWords() {
    Coverage coverage = of(NORTH, "2026-10-01T12:00:00Z", "2026-07-01T12:00:00Z");

    assertThat(coverage.gaps())
        .startsWith(
            "never seen in spring or winter",
            "never seen within an hour of sunset in summer or autumn")
        .noneMatch(sentence -> sentence.contains("midday"));
    assertThat(of(NORTH, "2026-10-01T17:30:00Z", "2026-07-01T12:00:00Z").gaps())
        .contains("never seen within an hour of sunset in summer");
  }

  @Test
  void whatIsMissingInAllSeasonsNamesNone() {
    assertThat(
            of(
                    NORTH,
                    "2026-01-10T12:00:00Z",
                    "2026-04-10T12:00:00Z",
                    "2026-07-10T12:00:00Z",
                    "2026-10-10T12:00:00Z")
                .gaps())
        .startsWith("never seen within an hour of sunset", "never seen within an hour of sunrise");
  }

  @Test
  void withoutShotsNothingIsSeen() {
    assertThat(of(NORTH).gaps())
        .containsExactly(
            "never seen at any time: no shot here tells when it was taken by daylight");
  }

  @Test
  void whatAPolarYearDoesNotHaveIsNotMissing() {
    Coverage coverage = of(ARCTIC, "2026-06-25T12:00:00Z", "2026-10-01T11:00:00Z");

    assertThat(coverage.has(Season.SUMMER, Time.MIDDAY)).isTrue();
    assertThat(coverage.has(Season.WINTER, Time.TWILIGHT)).isTrue();
    assertThat(coverage.has(Season.AUTUMN, Time.LAST_HOUR)).isTrue();
    assertThat(of(new GeoPoint(89.5, 0), "2026-06-25T12:00:00Z").gaps())
        .noneMatch(sentence -> sentence.contains("sunset in summer"));
  }
}
