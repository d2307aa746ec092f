package org.lightledger.sun;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import net.jqwik.api.Assume;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.LongRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.geo.GeoPoint;

class SunSearchTest {
  private static final Instant YEAR_START = Instant.parse("2024-01-01T00:00:00Z");
  private static final Instant YEAR_END = Instant.parse("2025-01-01T00:00:00Z");
  private static final double HORIZON_DEG = SunThreshold.HORIZON.geometricAltitudeDeg();

  private final SpaEphemeris ephemeris = new SpaEphemeris();
  private final SunCurve year =
      SunCurve.of(ephemeris, YEAR_START, YEAR_END.plus(Duration.ofDays(7)));

  /** The altitude at every crossing is the one asked for, and the sun moves as stated. */
  @Property
  void theSunStandsAtTheAltitudeAskedFor(
      @ForAll @LongRange(min = 0, max = 365L * 86_400) long startS,
      @ForAll @DoubleRange(min = -90.0, max = 90.0) @Scale(9) double latitudeDeg,
      @ForAll @DoubleRange(min = -180.0, max = 180.0) @Scale(9) double longitudeDeg,
      @ForAll @DoubleRange(min = -20.0, max = 20.0) @Scale(9) double altitudeDeg) {
    GeoPoint place = new GeoPoint(latitudeDeg, longitudeDeg);
    Instant start = YEAR_START.plusSeconds(startS);
    List<SunCrossing> crossings =
        SunSearch.over(year, place, start, start.plus(Duration.ofDays(2))).crossings(altitudeDeg);

    for (int i = 0; i < crossings.size(); i++) {
      SunCrossing crossing = crossings.get(i);
      double before = year.geometricAltitudeDeg(crossing.at().toEpochMilli(), place);
      double after = year.geometricAltitudeDeg(crossing.at().toEpochMilli() + 2, place);
      assertThat(before).isCloseTo(altitudeDeg, within(0.00001));
      assertThat(crossing.rising()).isEqualTo(after > before);
      if (i > 0) {
        assertThat(crossing.rising()).isNotEqualTo(crossings.get(i - 1).rising());
        assertThat(crossing.at()).isAfter(crossings.get(i - 1).at());
      }
    }
  }

  /** Looking every minute finds nothing that the search has missed, at the poles above all. */
  @Property(tries = 300)
  void missesNothingThatAMinuteByMinuteLookSees(
      @ForAll @LongRange(min = 0, max = 365) long day,
      @ForAll @DoubleRange(min = 60.0, max = 90.0) @Scale(6) double latitudeDeg,
      @ForAll boolean south,
      @ForAll @DoubleRange(min = -1.0, max = 1.0) @Scale(6) double aboveNoonOrMidnightDeg,
      @ForAll boolean noon) {
    GeoPoint place = new GeoPoint(south ? -latitudeDeg : latitudeDeg, 25.0);
    Instant start = YEAR_START.plus(Duration.ofDays(day));
    Instant end = start.plus(Duration.ofDays(1));
    SunSearch search = SunSearch.over(year, place, start, end);
    SunMoment extreme = noon ? search.highest() : search.lowest();
    double offsetDeg = Math.pow(aboveNoonOrMidnightDeg, 3);
    Assume.that(Math.abs(offsetDeg) > 0.000001);
    double altitudeDeg = extreme.direction().geometricAltitudeDeg() + offsetDeg;
    int seen = 0;
    boolean upBefore = isUp(start, place, altitudeDeg);
    for (Instant at = start; at.isBefore(end); at = at.plusSeconds(60)) {
      boolean up = isUp(at, place, altitudeDeg);
      seen += up == upBefore ? 0 : 1;
      upBefore = up;
    }
    seen += isUp(end, place, altitudeDeg) == upBefore ? 0 : 1;

    assertThat(search.crossings(altitudeDeg)).hasSizeGreaterThanOrEqualTo(seen);
    assertThat(search.state(altitudeDeg) == SunState.CROSSES)
        .isEqualTo(!search.crossings(altitudeDeg).isEmpty());
  }

  /**
   * Seven kilometres from a pole the sun's daily swing just outweighs its drift of 0.4 degrees a
   * day: two turning points lie hours or minutes apart, and an altitude between them is crossed
   * three times.
   */
  @Property(tries = 300)
  void findsTurningPointsThatLieClose(
      @ForAll @LongRange(min = 0, max = 20) long day,
      @ForAll @DoubleRange(min = 89.925, max = 89.94) @Scale(6) double latitudeDeg,
      @ForAll @LongRange(min = 1, max = 1_438) long minute) {
    GeoPoint place = new GeoPoint(latitudeDeg, -40.0);
    Instant start = Instant.parse("2024-03-10T00:00:00Z").plus(Duration.ofDays(day));
    Instant end = start.plus(Duration.ofDays(1));
    double altitudeDeg =
        year.geometricAltitudeDeg(
            start.plus(Duration.ofMinutes(minute)).plusSeconds(30).toEpochMilli(), place);
    int seen = 0;
    for (Instant at = start; at.isBefore(end); at = at.plusSeconds(60)) {
      seen += isUp(at, place, altitudeDeg) == isUp(at.plusSeconds(60), place, altitudeDeg) ? 0 : 1;
    }

    assertThat(SunSearch.over(year, place, start, end).crossings(altitudeDeg))
        .hasSizeGreaterThanOrEqualTo(seen);
  }

  /** A sun that stands above an altitude for less than two minutes rises and sets all the same. */
  @ParameterizedTest
  @ValueSource(doubles = {-77.85, -60.0, 0.0, 45.0, 66.5, 78.2, 89.0})
  void aGrazingSunRisesAndSets(double latitudeDeg) {
    GeoPoint place = new GeoPoint(latitudeDeg, 15.6);
    Instant start = Instant.parse("2024-02-16T00:00:00Z");
    SunSearch search = SunSearch.over(ephemeris, place, start, start.plus(Duration.ofDays(1)));
    SunMoment top = search.highest();
    double justBelow = top.direction().geometricAltitudeDeg() - 0.00001;

    List<SunCrossing> crossings = search.crossings(justBelow);

    assertThat(crossings).extracting(SunCrossing::rising).containsExactly(true, false);
    assertThat(Duration.between(crossings.get(0).at(), crossings.get(1).at()))
        .isBetween(Duration.ofMillis(1), Duration.ofMinutes(8));
    assertThat(top.at()).isBetween(crossings.get(0).at(), crossings.get(1).at());
    assertThat(search.crossings(justBelow + 0.0001)).isEmpty();
  }

  /** At the pole the year has one rise and one set, half a year apart. */
  @Example
  void thePoleHasOneDayAYear() {
    SunSearch search = SunSearch.over(year, new GeoPoint(90.0, 0.0), YEAR_START, YEAR_END);

    List<SunCrossing> crossings = search.crossings(HORIZON_DEG);

    assertThat(crossings).extracting(SunCrossing::rising).containsExactly(true, false);
    assertThat(Duration.between(crossings.get(0).at(), crossings.get(1).at()).toDays())
        .isBetween(188L, 192L);
  }

  @Property
  void aStretchAndItsHalvesHaveTheSameCrossings(
      @ForAll @LongRange(min = 0, max = 364) long day,
      @ForAll @LongRange(min = 1, max = 86_399_999) long cutMs,
      @ForAll @DoubleRange(min = -89.0, max = 89.0) @Scale(6) double latitudeDeg) {
    GeoPoint place = new GeoPoint(latitudeDeg, 0.0);
    Instant start = YEAR_START.plus(Duration.ofDays(day));
    Instant cut = start.plusMillis(cutMs);
    Instant end = start.plus(Duration.ofDays(1));

    int whole = SunSearch.over(year, place, start, end).crossings(HORIZON_DEG).size();
    int first = SunSearch.over(year, place, start, cut).crossings(HORIZON_DEG).size();
    int second = SunSearch.over(year, place, cut, end).crossings(HORIZON_DEG).size();

    assertThat(first + second).isEqualTo(whole);
  }

  @Example
  void nextLooksAheadAsFarAsToldAndNoFurther() {
    GeoPoint berlin = new GeoPoint(52.52, 13.405);
    Instant noon = Instant.parse("2024-10-27T11:00:00Z");
    Instant sunset = Instant.parse("2024-10-27T15:45:25Z");

    assertThat(SunSearch.next(ephemeris, berlin, noon, Duration.ofHours(6), HORIZON_DEG))
        .hasValueSatisfying(
            crossing -> {
              assertThat(crossing.rising()).isFalse();
              assertThat(Duration.between(sunset, crossing.at()).abs())
                  .isLessThan(Duration.ofSeconds(1));
            });
    assertThat(SunSearch.next(ephemeris, berlin, noon, Duration.ofHours(4), HORIZON_DEG)).isEmpty();
  }

  @Example
  void noonAndMidnightAlternateHalfADayApart() {
    GeoPoint place = new GeoPoint(-33.4489, -70.6693);
    SunSearch search = SunSearch.over(year, place, YEAR_START, YEAR_END);

    assertThat(search.noons()).hasSize(366);
    assertThat(search.midnights()).hasSize(366);
    for (Instant noon : search.noons()) {
      double azimuth = year.direction(noon, place).azimuth().trueDeg();
      assertThat(Math.min(Math.abs(azimuth - 180.0), Math.min(azimuth, 360.0 - azimuth)))
          .isLessThan(0.0005);
    }
  }

  @Example
  void refusesWhatIsNoAltitudeAndNoStretch() {
    GeoPoint place = new GeoPoint(0.0, 0.0);
    SunSearch search = SunSearch.over(year, place, YEAR_START, YEAR_END);

    assertThatThrownBy(() -> search.crossings(Double.NaN))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("expected an altitude in [-90, 90] degrees, found NaN");
    assertThatThrownBy(() -> search.state(90.5))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("expected an altitude in [-90, 90] degrees, found 90.5");
    assertThatThrownBy(() -> SunSearch.over(year, place, YEAR_END, YEAR_START))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageStartingWith("expected a start before the end");
  }

  private boolean isUp(Instant at, GeoPoint place, double altitudeDeg) {
    return year.geometricAltitudeDeg(at.toEpochMilli(), place) >= altitudeDeg;
  }
}
