package org.lightledger.sun;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.GeoPoint;
import org.lightledger.testing.Reference;

/** Rise, set and twilight against the minutes published by the US Naval Observatory. */
class SunEventsTest {
  /** A minute: half of it is the rounding of the published value. */
  private static final double MINUTE_S = 60.0;

  /**
   * At the poles the sun climbs a thousandth of a degree in four minutes; that is how far the
   * published minutes are from the exact crossing of -50 arc minutes, by an independent program
   * too.
   */
  private static final double POLE_S = 242.0;

  private static final Map<String, SunEventKind> KINDS =
      Map.of(
          "sunrise", SunEventKind.SUNRISE,
          "sunset", SunEventKind.SUNSET,
          "civil_dawn", SunEventKind.CIVIL_DAWN,
          "civil_dusk", SunEventKind.CIVIL_DUSK,
          "nautical_dawn", SunEventKind.NAUTICAL_DAWN,
          "nautical_dusk", SunEventKind.NAUTICAL_DUSK,
          "astro_dawn", SunEventKind.ASTRONOMICAL_DAWN,
          "astro_dusk", SunEventKind.ASTRONOMICAL_DUSK);

  private final SpaEphemeris ephemeris = new SpaEphemeris();

  @Test
  void publishedMinutes() {
    List<Map<String, String>> rows =
        Reference.read(Path.of("src", "test", "resources", "solar", "events.csv"));

    assertThat(rows).hasSize(42);
    for (Map<String, String> row : rows) {
      assertThat(missS(row, SunRows.minute(SunRows.text(row, "utc_minute"))))
          .as(row.toString())
          .isLessThan(boundS(row));
    }
  }

  @Test
  void everyPublishedMinute() {
    List<Map<String, String>> rows = Reference.csv("solar/usno-riseset-events.csv");
    Map<String, Double> worst = new TreeMap<>();
    for (Map<String, String> row : rows) {
      double missS = missS(row, SunRows.minute(SunRows.text(row, "published_utc_minute")));
      worst.merge(band(row) + ", from the published minute", missS, Math::max);
      worst.merge(
          band(row) + ", from the exact crossing by PyEphem",
          missS(row, Instant.parse(SunRows.text(row, "ephem_exact_utc"))),
          Math::max);
      assertThat(missS).as(row.toString()).isLessThan(boundS(row));
    }
    worst.forEach((band, seconds) -> SunRows.tell("events " + band + ", seconds", seconds));
    assertThat(rows).hasSize(4218);
    assertThat(worst)
        .hasEntrySatisfying(
            "below 80 degrees, from the exact crossing by PyEphem",
            seconds -> assertThat(seconds).isLessThan(1.5));
  }

  @Test
  void publishedDayStates() {
    List<Map<String, String>> rows =
        Reference.read(Path.of("src", "test", "resources", "solar", "day-states.csv"));

    assertThat(rows).hasSize(24);
    rows.forEach(row -> checkState(row, "threshold"));
  }

  @Test
  void everyPublishedDayState() {
    List<Map<String, String>> rows = Reference.csv("solar/usno-day-states.csv");

    rows.forEach(row -> checkState(row, "horizon"));
    SunRows.tell("day states that agree", rows.size());
    assertThat(rows).hasSize(360);
  }

  /** The table's dates are UTC dates: rise and set are those between two UTC midnights. */
  private void checkState(Map<String, String> row, String thresholdColumn) {
    SunThreshold threshold =
        SunRows.text(row, thresholdColumn).equals("sun")
            ? SunThreshold.HORIZON
            : SunThreshold.CIVIL;
    SunDay.Lived day =
        (SunDay.Lived)
            SunDay.of(
                ephemeris,
                SunRows.place(row),
                ZoneOffset.UTC,
                LocalDate.parse(SunRows.text(row, "utc_date")));
    SunState expected =
        switch (SunRows.text(row, "state")) {
          case "ALL_DAY" -> SunState.ALWAYS_UP;
          case "ALL_NIGHT" -> SunState.ALWAYS_DOWN;
          default -> SunState.CROSSES;
        };

    assertThat(day.state(threshold)).as(row.toString()).isEqualTo(expected);
    checkTime(row, "rise_utc", day.events(threshold.rising()));
    checkTime(row, "set_utc", day.events(threshold.setting()));
  }

  private static void checkTime(Map<String, String> row, String column, List<SunEvent> events) {
    if (!SunRows.has(row, column)) {
      assertThat(events).as(column + row).isEmpty();
      return;
    }
    LocalTime published = LocalTime.parse(SunRows.text(row, column));
    assertThat(events)
        .as(column + row)
        .anySatisfy(
            event ->
                assertThat(
                        Duration.between(
                            published, event.at().atOffset(ZoneOffset.UTC).toLocalTime()))
                    .isBetween(Duration.ofSeconds(-60), Duration.ofSeconds(60)));
  }

  /** Seconds from an expected instant to the nearest event of the row's kind. */
  private double missS(Map<String, String> row, Instant expected) {
    SunEventKind kind = SunRows.kind(KINDS, SunRows.text(row, "event"));
    GeoPoint place = SunRows.place(row);
    Instant from = expected.minus(Duration.ofHours(6));
    SunSearch search = SunSearch.over(ephemeris, place, from, from.plus(Duration.ofHours(12)));
    double nearest = Double.POSITIVE_INFINITY;
    for (SunThreshold threshold : SunThreshold.values()) {
      for (SunCrossing crossing : search.crossings(threshold.geometricAltitudeDeg())) {
        if (kind == (crossing.rising() ? threshold.rising() : threshold.setting())) {
          nearest =
              Math.min(nearest, Duration.between(expected, crossing.at()).abs().toMillis() / 1e3);
        }
      }
    }
    return nearest;
  }

  private static double boundS(Map<String, String> row) {
    return Math.abs(SunRows.number(row, "lat_deg")) < 89.5 ? MINUTE_S : POLE_S;
  }

  private static String band(Map<String, String> row) {
    double latitudeDeg = Math.abs(SunRows.number(row, "lat_deg"));
    if (latitudeDeg < 80.0) {
      return "below 80 degrees";
    }
    return latitudeDeg < 89.5 ? "at 88 and 89 degrees" : "at the poles";
  }
}
