package org.lightledger.sun;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TimeZone;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.LongRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.GeoPoint;
import org.lightledger.testing.Reference;

class SunDayTest {
  private static final ZoneId REYKJAVIK_ZONE = ZoneId.of("Atlantic/Reykjavik");
  private static final GeoPoint REYKJAVIK = new GeoPoint(64.1466, -21.9426);
  private static final GeoPoint APIA = new GeoPoint(-13.8333, -171.7667);
  private static final GeoPoint BERLIN = new GeoPoint(52.52, 13.405);
  private static final ZoneId BERLIN_ZONE = ZoneId.of("Europe/Berlin");

  private static final Map<String, SunEventKind> COLUMNS =
      Map.of(
          "sunrise_utc", SunEventKind.SUNRISE,
          "sunset_utc", SunEventKind.SUNSET,
          "civil_dawn_utc", SunEventKind.CIVIL_DAWN,
          "civil_dusk_utc", SunEventKind.CIVIL_DUSK,
          "nautical_dawn_utc", SunEventKind.NAUTICAL_DAWN,
          "nautical_dusk_utc", SunEventKind.NAUTICAL_DUSK,
          "astro_dawn_utc", SunEventKind.ASTRONOMICAL_DAWN,
          "astro_dusk_utc", SunEventKind.ASTRONOMICAL_DUSK);

  private static final Map<String, SunThreshold> STATES =
      Map.of(
          "sun_state", SunThreshold.HORIZON,
          "civil_state", SunThreshold.CIVIL,
          "nautical_state", SunThreshold.NAUTICAL,
          "astro_state", SunThreshold.ASTRONOMICAL);

  private final SpaEphemeris ephemeris = new SpaEphemeris();

  @Test
  void localDays() {
    List<Map<String, String>> rows =
        Reference.read(Path.of("src", "test", "resources", "solar", "local-days.csv"));

    assertThat(rows).hasSize(20);
    rows.forEach(this::check);
  }

  @Test
  void everyLocalDay() {
    List<Map<String, String>> rows = Reference.csv("solar/computed-day-events.csv");

    double worst = rows.stream().mapToDouble(this::check).max().orElseThrow();
    SunRows.tell("local days, largest miss of an event, seconds", worst);
    assertThat(rows).hasSize(48);
  }

  /** Compares all columns; gives the largest miss of an event, in seconds. */
  private double check(Map<String, String> row) {
    String name = row.toString();
    SunDay.Lived day =
        lived(
            SunDay.of(
                ephemeris,
                SunRows.place(row),
                ZoneId.of(SunRows.text(row, "zone")),
                LocalDate.parse(SunRows.text(row, "local_date"))));

    assertThat(day.start()).as(name).isEqualTo(SunRows.text(row, "window_start_utc"));
    assertThat(day.end()).as(name).isEqualTo(SunRows.text(row, "window_end_utc"));
    STATES.forEach(
        (column, threshold) ->
            assertThat(day.state(threshold))
                .as(column + name)
                .isEqualTo(
                    switch (SunRows.text(row, column)) {
                      case "always_above" -> SunState.ALWAYS_UP;
                      case "always_below" -> SunState.ALWAYS_DOWN;
                      default -> SunState.CROSSES;
                    }));
    checkExtremes(row, day);
    checkAzimuth(row, "sunrise_az_deg", day.events(SunEventKind.SUNRISE));
    checkAzimuth(row, "sunset_az_deg", day.events(SunEventKind.SUNSET));
    double worst = 0.0;
    for (Map.Entry<String, SunEventKind> column : COLUMNS.entrySet()) {
      List<SunEvent> events = day.events(column.getValue());
      if (SunRows.has(row, column.getKey())) {
        assertThat(events).as(column + name).hasSize(1);
        Instant expected = Instant.parse(SunRows.text(row, column.getKey()));
        double missS = Duration.between(expected, events.get(0).at()).abs().toMillis() / 1e3;
        assertThat(missS).as(column + name).isLessThan(1.0);
        worst = Math.max(worst, missS);
      } else {
        assertThat(events).as(column + name).isEmpty();
        assertThat(day.absence(column.getValue())).as(column + name).isPresent();
      }
    }
    return worst;
  }

  /** The table's altitudes have four decimals; its least altitude is that of the lowest sample. */
  private static void checkExtremes(Map<String, String> row, SunDay.Lived day) {
    double lowestDeg = day.lowest().direction().geometricAltitudeDeg();

    assertThat(day.highest().direction().geometricAltitudeDeg())
        .as(row.toString())
        .isCloseTo(SunRows.number(row, "max_alt_true_deg"), within(0.0002));
    assertThat(lowestDeg)
        .as(row.toString())
        .isLessThan(SunRows.number(row, "min_alt_true_deg") + 0.0002);
    assertThat(lowestDeg)
        .as(row.toString())
        .isGreaterThan(SunRows.number(row, "min_alt_true_deg") - 0.1);
    assertThat(Duration.between(instant(row, "max_alt_time_utc"), day.highest().at()).abs())
        .as(row.toString())
        .isLessThan(Duration.ofSeconds(10));
  }

  private static void checkAzimuth(Map<String, String> row, String column, List<SunEvent> events) {
    if (SunRows.has(row, column)) {
      assertThat(events.get(0).direction().azimuth().trueDeg())
          .as(column + row)
          .isCloseTo(SunRows.number(row, column), within(0.0051));
    }
  }

  /** Near midsummer sunset in Reykjavik creeps back over midnight: one date gets both. */
  @Test
  void aDayMayHoldTwoSunsetsAndAnotherNone() {
    long twice = 0;
    long none = 0;
    for (LocalDate date = LocalDate.of(2024, 6, 1);
        date.isBefore(LocalDate.of(2024, 7, 15));
        date = date.plusDays(1)) {
      SunDay day = SunDay.of(ephemeris, REYKJAVIK, REYKJAVIK_ZONE, date);
      List<SunEvent> sunsets = day.events(SunEventKind.SUNSET);
      if (sunsets.size() == 2) {
        twice++;
        assertThat(day.event(SunEventKind.SUNSET)).hasValue(sunsets.get(0).at());
        assertThat(Duration.between(sunsets.get(0).at(), sunsets.get(1).at()))
            .isBetween(Duration.ofMinutes(1430), Duration.ofMinutes(1440));
        assertThat(day.absence(SunEventKind.SUNSET)).isEmpty();
      } else if (sunsets.isEmpty()) {
        none++;
        assertThat(day.absence(SunEventKind.SUNSET))
            .hasValue("no sunset: it falls outside this local day");
      }
    }
    assertThat(twice).isEqualTo(1);
    assertThat(none).isEqualTo(1);
  }

  /**
   * Samoa moved over the date line at the end of 2011-12-29, Kwajalein at the end of 1993-08-20
   * (the Time Zone Database, file australasia).
   */
  @ParameterizedTest
  @CsvSource({"Pacific/Apia, 2011-12-30", "Pacific/Kwajalein, 1993-08-21"})
  void aSkippedDateSaysSo(String zone, LocalDate date) {
    SunDay day = SunDay.of(ephemeris, APIA, ZoneId.of(zone), date);

    assertThat(day).isEqualTo(new SunDay.Skipped(APIA, ZoneId.of(zone), date));
    assertThat(day.events()).isEmpty();
    assertThat(day.event(SunEventKind.SUNSET)).isEmpty();
    assertThat(day.absence(SunEventKind.SUNSET))
        .hasValue("no sunset: the date " + date + " does not exist in " + zone);
    SunDay.Lived before = lived(SunDay.of(ephemeris, APIA, ZoneId.of(zone), date.minusDays(1)));
    SunDay.Lived after = lived(SunDay.of(ephemeris, APIA, ZoneId.of(zone), date.plusDays(1)));
    assertThat(before.end()).isEqualTo(after.start());
  }

  /** Lengths of days by the Time Zone Database; Kwajalein lived 1969-09-30 all but twice. */
  @ParameterizedTest
  @CsvSource({
    "Antarctica/Troll, 2024-03-31, 22",
    "Europe/Berlin, 2024-03-31, 23",
    "Australia/Lord_Howe, 2024-10-06, 23.5",
    "Australia/Lord_Howe, 2024-04-07, 24.5",
    "Europe/Berlin, 2024-10-27, 25",
    "America/Havana, 2024-11-03, 25",
    "Antarctica/Troll, 2024-10-27, 26",
    "Pacific/Kwajalein, 1969-09-30, 47"
  })
  void daysHaveTheLengthTheirClocksGiveThem(String zone, LocalDate date, double hours) {
    SunDay.Lived day = lived(SunDay.of(ephemeris, BERLIN, ZoneId.of(zone), date));

    assertThat(Duration.between(day.start(), day.end()).toMinutes() / 60.0).isEqualTo(hours);
    assertThat(day.events(SunEventKind.SOLAR_NOON)).hasSize(hours > 40 ? 2 : 1);
  }

  @Test
  void polarDayAndPolarNightAreStated() {
    GeoPoint longyearbyen = new GeoPoint(78.2232, 15.6267);
    ZoneId zone = ZoneId.of("Arctic/Longyearbyen");
    SunDay.Lived summer =
        lived(SunDay.of(ephemeris, longyearbyen, zone, LocalDate.of(2024, 6, 21)));
    SunDay.Lived winter =
        lived(SunDay.of(ephemeris, longyearbyen, zone, LocalDate.of(2024, 12, 21)));

    assertThat(summer.state()).isEqualTo(SunState.ALWAYS_UP);
    assertThat(summer.absence(SunEventKind.SUNSET))
        .hasValue("no sunset: polar day, the sun stays up");
    assertThat(summer.absence(SunEventKind.CIVIL_DUSK))
        .hasValue("no civil dusk: the sun stays above -6 degrees");
    assertThat(summer.event(SunEventKind.SOLAR_NOON)).isPresent();
    assertThat(winter.state()).isEqualTo(SunState.ALWAYS_DOWN);
    assertThat(winter.absence(SunEventKind.SUNRISE))
        .hasValue("no sunrise: polar night, the sun stays down");
    assertThat(winter.absence(SunEventKind.CIVIL_DAWN))
        .hasValue("no civil dawn: the sun stays below -6 degrees");
    assertThat(winter.state(SunThreshold.NAUTICAL)).isEqualTo(SunState.CROSSES);
    assertThat(winter.absence(SunEventKind.NAUTICAL_DAWN)).isEmpty();
  }

  @Test
  void anOrdinaryDayRunsFromDawnToMidnight() {
    SunDay day = SunDay.of(ephemeris, BERLIN, BERLIN_ZONE, LocalDate.of(2024, 10, 30));

    assertThat(day.events())
        .extracting(event -> event.kind().label())
        .containsExactly(
            "astronomical dawn",
            "nautical dawn",
            "civil dawn",
            "sunrise",
            "solar noon",
            "sunset",
            "civil dusk",
            "nautical dusk",
            "astronomical dusk",
            "solar midnight");
    for (SunEvent event : day.events()) {
      SunDirection exact = ephemeris.direction(event.at(), BERLIN);
      assertThat(event.direction().gapDeg(exact)).as(event.toString()).isLessThan(0.00001);
    }
  }

  /** Each day begins where the one before it ended; a skipped date leaves no hole. */
  @Property(tries = 300)
  void daysTileTime(
      @ForAll("zones") ZoneId zone, @ForAll @LongRange(min = -32_000, max = 25_000) long epochDay) {
    LocalDate date = LocalDate.ofEpochDay(epochDay);
    SunDay today = SunDay.of(ephemeris, BERLIN, zone, date);
    SunDay tomorrow = SunDay.of(ephemeris, BERLIN, zone, date.plusDays(1));

    if (today instanceof SunDay.Lived before && tomorrow instanceof SunDay.Lived after) {
      assertThat(before.end()).isEqualTo(after.start());
      assertThat(Duration.between(before.start(), before.end()))
          .isBetween(Duration.ofHours(21), Duration.ofHours(48));
      assertThat(before.events())
          .allSatisfy(
              event ->
                  assertThat(event.at()).isBetween(before.start(), before.end().minusMillis(1)))
          .isSortedAccordingTo(Comparator.comparing(SunEvent::at));
    } else {
      assertThat(zone.getRules().getTransitions())
          .anyMatch(transition -> transition.getDuration().abs().toHours() >= 23);
    }
  }

  /** The zone decides which date an event belongs to, never when it happens. */
  @Property(tries = 200)
  void zonesShareTheSameSun(
      @ForAll("zones") ZoneId zone,
      @ForAll @DoubleRange(min = -66.0, max = 66.0) @Scale(6) double latitudeDeg,
      @ForAll @LongRange(min = 0, max = 22_000) long epochDay) {
    GeoPoint place = new GeoPoint(latitudeDeg, 10.0);
    LocalDate date = LocalDate.ofEpochDay(epochDay);
    SunDay day = SunDay.of(ephemeris, place, zone, date);

    for (SunEvent event : day.events()) {
      SunDay other =
          SunDay.of(
              ephemeris, place, ZoneOffset.UTC, event.at().atOffset(ZoneOffset.UTC).toLocalDate());
      assertThat(other.events(event.kind()))
          .as("%s among %s", event, other)
          .anySatisfy(
              same ->
                  assertThat(Duration.between(event.at(), same.at()).abs())
                      .isLessThan(Duration.ofMillis(100)));
    }
  }

  @Provide
  Arbitrary<ZoneId> zones() {
    return Arbitraries.of(
            List.of(
                "Europe/Berlin",
                "America/New_York",
                "America/St_Johns",
                "America/Santiago",
                "America/Havana",
                "Africa/Casablanca",
                "Asia/Kathmandu",
                "Asia/Tehran",
                "Australia/Lord_Howe",
                "Antarctica/Troll",
                "Pacific/Apia",
                "Pacific/Kwajalein",
                "Pacific/Kiritimati",
                "Pacific/Chatham",
                "UTC"))
        .map(ZoneId::of);
  }

  @Test
  void aCurveOfTheYearGivesTheSameDay() {
    LocalDate date = LocalDate.of(2024, 3, 31);
    Instant start = Instant.parse("2024-01-01T00:00:00Z");
    SunCurve year = SunCurve.of(ephemeris, start, start.plus(Duration.ofDays(366)));
    SunDay.Lived exact = lived(SunDay.of(ephemeris, BERLIN, BERLIN_ZONE, date));
    SunDay.Lived fast = lived(SunDay.of(year, BERLIN, BERLIN_ZONE, date));

    assertThat(fast.states()).isEqualTo(exact.states());
    assertThat(fast.events()).hasSameSizeAs(exact.events());
    for (int i = 0; i < exact.events().size(); i++) {
      assertThat(fast.events().get(i).kind()).isEqualTo(exact.events().get(i).kind());
      assertThat(Duration.between(fast.events().get(i).at(), exact.events().get(i).at()).abs())
          .isLessThan(Duration.ofMillis(3));
    }
  }

  @Test
  void theMachinesZoneAndLanguageChangeNothing() {
    TimeZone zone = TimeZone.getDefault();
    Locale locale = Locale.getDefault();
    LocalDate date = LocalDate.of(2024, 10, 27);
    SunDay expected = SunDay.of(ephemeris, BERLIN, BERLIN_ZONE, date);
    SunDirection noon = ephemeris.direction(Instant.parse("2024-10-27T11:00:00Z"), BERLIN);
    try {
      Locale.setDefault(Locale.GERMANY);
      for (String name : List.of("Pacific/Kiritimati", "America/St_Johns", "Asia/Kathmandu")) {
        TimeZone.setDefault(TimeZone.getTimeZone(name));
        assertThat(SunDay.of(new SpaEphemeris(), BERLIN, BERLIN_ZONE, date)).isEqualTo(expected);
        assertThat(new SpaEphemeris().direction(Instant.parse("2024-10-27T11:00:00Z"), BERLIN))
            .isEqualTo(noon);
        assertThat(lived(expected).absence(SunEventKind.SUNSET)).isEmpty();
      }
    } finally {
      TimeZone.setDefault(zone);
      Locale.setDefault(locale);
    }
  }

  @Test
  void refusesYearsThatTheEphemerisDoesNotServe() {
    assertThatThrownBy(() -> SunDay.of(ephemeris, BERLIN, BERLIN_ZONE, LocalDate.of(1600, 1, 1)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageStartingWith("the sun is known from 1700-01-01T00:00:00Z");
  }

  private static Instant instant(Map<String, String> row, String column) {
    return Instant.parse(SunRows.text(row, column));
  }

  private static SunDay.Lived lived(SunDay day) {
    assertThat(day).isInstanceOf(SunDay.Lived.class);
    return (SunDay.Lived) day;
  }
}
