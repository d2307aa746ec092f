package org.lightledger.ask;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunEphemeris;

/** Every window of a day against a scan of all its seconds with the ephemeris itself. */
class SpotWindowsTest {
  private static final SunEphemeris SUN = new SpaEphemeris();

  @ParameterizedTest
  @CsvSource({
    // Ordinary, and the two days on which the clocks change.
    "41.93, -6.42, Europe/Madrid, 2026-12-12, 235",
    "41.93, -6.42, Europe/Madrid, 2026-03-29, 250",
    "41.93, -6.42, Europe/Madrid, 2026-10-25, 90",
    // Half an hour of daylight saving time.
    "-31.55, 159.08, Australia/Lord_Howe, 2026-04-05, 270",
    // A sun that never sets, one that never rises, and one that hardly does.
    "78.22, 15.65, Arctic/Longyearbyen, 2026-06-21, 180",
    "78.22, 15.65, Arctic/Longyearbyen, 2026-12-21, 180",
    "69.65, 18.96, Europe/Oslo, 2026-01-15, 180",
    // Overhead.
    "1.35, 103.82, Asia/Singapore, 2026-03-20, 0",
  })
  void endsAreThoseOfAScanBySeconds(
      double latitudeDeg, double longitudeDeg, ZoneId zone, LocalDate day, double facingDeg) {
    GeoPoint place = new GeoPoint(latitudeDeg, longitudeDeg);
    Bearing facing = new Bearing(facingDeg);
    Skyline skyline = towers();
    for (Set<LightClass> wanted :
        List.of(
            EnumSet.of(LightClass.BACKLIT, LightClass.RIM),
            EnumSet.of(LightClass.OPEN_SHADE),
            EnumSet.of(LightClass.TWILIGHT),
            EnumSet.of(LightClass.DARK, LightClass.FRONT, LightClass.OVERHEAD))) {
      List<Answer.Window> windows =
          SpotWindows.of(SUN, place, zone, facing, skyline, wanted, day, day);
      List<Instant> edges = new ArrayList<>();
      for (Answer.Window window : windows) {
        edges.add(window.from().toInstant());
        edges.add(window.to().toInstant());
      }

      List<Instant> scanned = scan(place, zone, facing, skyline, wanted, day);

      assertThat(edges).as("%s", wanted).hasSameSizeAs(scanned);
      for (int i = 0; i < edges.size(); i++) {
        assertThat(edges.get(i).toEpochMilli())
            .as("%s", wanted)
            .isCloseTo(scanned.get(i).toEpochMilli(), within(1_500L));
      }
    }
  }

  /** The first and the last second of each stretch. */
  private static List<Instant> scan(
      GeoPoint place,
      ZoneId zone,
      Bearing facing,
      Skyline skyline,
      Set<LightClass> wanted,
      LocalDate day) {
    List<Instant> edges = new ArrayList<>();
    Instant end = day.plusDays(1).atStartOfDay(zone).toInstant();
    boolean before = false;
    Instant second = day.atStartOfDay(zone).toInstant();
    for (; second.isBefore(end); second = second.plusSeconds(1)) {
      boolean now =
          wanted.contains(SpotLight.classOf(SUN.direction(second, place), facing, skyline));
      if (now != before) {
        edges.add(second);
        before = now;
      }
    }
    if (before) {
      edges.add(end);
    }
    return edges;
  }

  private static Skyline towers() {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      double altitudeDeg = step % 37 < 6 ? 28.0 : 3.0;
      builder.set(step, altitudeDeg, 0.4, SkylineSource.BUILDING, Set.of());
    }
    return builder.build();
  }

  @Test
  void noLightIsNoQuestion() {
    LocalDate day = LocalDate.of(2026, 5, 1);
    assertThatThrownBy(
            () ->
                SpotWindows.of(
                    SUN,
                    new GeoPoint(0, 0),
                    ZoneId.of("UTC"),
                    new Bearing(0),
                    null,
                    Set.of(),
                    day,
                    day))
        .hasMessageContaining("at least one light class");
  }
}
