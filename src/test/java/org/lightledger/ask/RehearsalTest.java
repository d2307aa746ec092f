package org.lightledger.ask;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

class RehearsalTest {
  private static final SunEphemeris SUN = new SpaEphemeris();
  private static final Rehearsal REHEARSAL = new Rehearsal(SUN);
  private static final List<ZoneId> ZONES =
      List.of(
          ZoneId.of("Europe/Madrid"),
          ZoneId.of("America/St_Johns"),
          ZoneId.of("Australia/Lord_Howe"),
          ZoneId.of("Asia/Kathmandu"));

  @Test
  void equalsTheBestMinuteOfAllMinutes() {
    Random random = new Random(4711);
    int compared = 0;
    for (int i = 0; i < 200; i++) {
      ZoneId zone = ZONES.get(random.nextInt(ZONES.size()));
      GeoPoint place = new GeoPoint(random.nextInt(130) - 65, random.nextInt(360) - 180);
      LocalDate day = LocalDate.of(2026, 1, 20).plusDays(random.nextInt(330));
      Instant at = day.atTime(6 + random.nextInt(14), random.nextInt(60)).atZone(zone).toInstant();
      Skyline skyline = i % 3 == 0 ? null : walls(random);
      Rehearsal.Free free =
          new Rehearsal.Free(
              day.minusDays(2 + random.nextInt(5)),
              day.plusDays(random.nextInt(3) - 1),
              i % 2 == 0
                  ? EnumSet.allOf(DayOfWeek.class)
                  : EnumSet.of(DayOfWeek.SATURDAY, DayOfWeek.SUNDAY, DayOfWeek.TUESDAY),
              LocalTime.of(random.nextInt(10), 0),
              LocalTime.of(14 + random.nextInt(9), 30));
      Rehearsal.Plan plan = new Rehearsal.Plan(place, zone, skyline, at);

      Instant now = at.minusSeconds(60L * random.nextInt(10 * 1440));

      List<Rehearsal.Moment> found = REHEARSAL.moments(plan, free, now);

      Map<LocalDate, Double> expected = bruteForce(plan, free, now);
      assertThat(found).as("case " + i).hasSize(expected.size());
      for (Rehearsal.Moment moment : found) {
        assertThat(moment.sunGapDeg())
            .as("case " + i)
            .isCloseTo(expected.get(moment.at().toLocalDate()), within(1e-4));
        compared++;
      }
      assertThat(found).isSortedAccordingTo(Comparator.comparing(Rehearsal.Moment::sunGapDeg));
    }
    assertThat(compared).isGreaterThan(200);
  }

  /** Minute by minute through absolute time, each sun from the ephemeris itself. */
  private static Map<LocalDate, Double> bruteForce(
      Rehearsal.Plan plan, Rehearsal.Free free, Instant now) {
    Map<LocalDate, Double> best = new HashMap<>();
    SunDirection planned = SUN.direction(plan.at(), plan.place());
    if (planned.geometricAltitudeDeg() < -6) {
      return best;
    }
    int wanted = state(planned, plan.skyline());
    Instant end = free.last().plusDays(1).atStartOfDay(plan.zone()).toInstant();
    for (Instant minute = free.first().atStartOfDay(plan.zone()).toInstant();
        minute.isBefore(end) && minute.isBefore(plan.at());
        minute = minute.plusSeconds(60)) {
      LocalDate day = minute.atZone(plan.zone()).toLocalDate();
      LocalTime clock = minute.atZone(plan.zone()).toLocalTime();
      if (minute.isBefore(now)
          || day.equals(plan.at().atZone(plan.zone()).toLocalDate())
          || !free.weekdays().contains(day.getDayOfWeek())
          || clock.isBefore(free.from())
          || clock.isAfter(free.to())) {
        continue;
      }
      SunDirection sun = SUN.direction(minute, plan.place());
      if (wanted == 0 || wanted == state(sun, plan.skyline())) {
        best.merge(day, planned.gapDeg(sun), Math::min);
      }
    }
    return best;
  }

  /** 1 for direct sun, -1 for none, 0 for not known. */
  private static int state(SunDirection sun, Skyline skyline) {
    if (sun.geometricAltitudeDeg() < -0.8333) {
      return -1;
    }
    if (skyline == null) {
      return 0;
    }
    return sun.apparentAltitudeDeg() > skyline.altitudeDegAt(sun.azimuth().trueDeg()) ? 1 : -1;
  }

  private static Skyline walls(Random random) {
    SkylineBuilder builder = new SkylineBuilder();
    double altitudeDeg = 5.0;
    for (int step = 0; step < Skyline.STEPS; step++) {
      if (step % 40 == 0) {
        altitudeDeg = random.nextInt(40);
      }
      builder.set(step, altitudeDeg, 0.4, SkylineSource.BUILDING, Set.of());
    }
    return builder.build();
  }

  @Test
  void saysWhatIsDifferent() {
    GeoPoint place = new GeoPoint(41.93, -6.42);
    ZoneId zone = ZoneId.of("Europe/Madrid");
    Instant at = LocalDate.of(2026, 6, 20).atTime(20, 0).atZone(zone).toInstant();
    List<Rehearsal.Moment> moments =
        REHEARSAL.moments(
            new Rehearsal.Plan(place, zone, null, at),
            new Rehearsal.Free(
                LocalDate.of(2026, 6, 1),
                LocalDate.of(2026, 6, 19),
                EnumSet.allOf(DayOfWeek.class),
                LocalTime.of(18, 0),
                LocalTime.of(19, 0)),
            Instant.EPOCH);

    assertThat(Rehearsal.difference(moments.get(0)))
        .contains("higher and", "further left", "shadows are shorter");
    assertThat(
            REHEARSAL.moments(
                new Rehearsal.Plan(place, zone, null, at),
                Rehearsal.Free.always(LocalDate.of(2026, 6, 19), LocalDate.of(2026, 6, 19)),
                Instant.EPOCH))
        .singleElement()
        .satisfies(
            moment ->
                assertThat(Rehearsal.difference(moment))
                    .contains("no difference that can be seen"));
  }

  @Test
  void theMirrorDayHasTheSameDeclination() {
    LocalDate mirror = REHEARSAL.mirrorDay(LocalDate.of(2026, 8, 1)).orElseThrow();

    assertThat(mirror).isBetween(LocalDate.of(2026, 5, 10), LocalDate.of(2026, 5, 13));
    assertThat(REHEARSAL.mirrorDay(LocalDate.of(2026, 4, 20)).orElseThrow())
        .isBetween(LocalDate.of(2025, 8, 21), LocalDate.of(2025, 8, 24));
  }

  @Test
  void aBadStretchSaysWhatIsExpected() {
    LocalDate day = LocalDate.of(2026, 5, 1);
    assertThatThrownBy(() -> Rehearsal.Free.always(day, day.minusDays(1)))
        .hasMessageContaining("on or after the first");
    assertThatThrownBy(() -> Rehearsal.Free.always(day, day.plusYears(3)))
        .hasMessageContaining("at most 366 days");
    assertThatThrownBy(
            () ->
                new Rehearsal.Free(
                    day, day, EnumSet.noneOf(DayOfWeek.class), LocalTime.MIN, LocalTime.NOON))
        .hasMessageContaining("at least one day of the week");
  }
}
