package org.lightledger.ask;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
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

class ScoutingRunTest {
  private static final SunEphemeris SUN = new SpaEphemeris();
  private static final ZoneId ZONE = ZoneId.of("Europe/Madrid");
  private static final int STAY = 15;

  /** Every order of every set, at every time of the grid, each sun from the ephemeris itself. */
  @Test
  void equalsTheBestOfAllOrdersAndTimes() {
    Random random = new Random(29);
    int partial = 0;
    for (int i = 0; i < 60; i++) {
      LocalDate planned = LocalDate.of(2026, 3, 1).plusDays(random.nextInt(280));
      LocalDate day = planned.minusDays(1 + random.nextInt(20));
      List<Rehearsal.Plan> plans = new ArrayList<>();
      int spots = 1 + random.nextInt(3);
      for (int spot = 0; spot < spots; spot++) {
        plans.add(
            new Rehearsal.Plan(
                new GeoPoint(41.9 + random.nextDouble() / 10, -6.4),
                ZONE,
                random.nextBoolean() ? null : hill(random),
                planned.atTime(15, 0).plusMinutes(random.nextInt(180)).atZone(ZONE).toInstant()));
      }
      int[][] minutes = new int[spots][spots];
      for (int[] row : minutes) {
        for (int to = 0; to < spots; to++) {
          row[to] = random.nextInt(40);
        }
      }
      Rehearsal.Free free =
          new Rehearsal.Free(
              day,
              day,
              EnumSet.allOf(java.time.DayOfWeek.class),
              LocalTime.of(15, random.nextInt(50)),
              LocalTime.of(16 + random.nextInt(2), random.nextInt(60)));

      List<ScoutingRun.Run> runs =
          new ScoutingRun(SUN)
              .runs(plans, free, Instant.MIN, STAY, (from, to) -> minutes[from][to]);

      Best best = new Best(plans, minutes, free);
      best.search(new ArrayList<>(), free.first().atTime(free.from()).atZone(ZONE), 0);
      assertThat(runs).as("case " + i).hasSize(best.visits == 0 ? 0 : 1);
      if (best.visits > 0) {
        ScoutingRun.Run run = runs.get(0);
        assertThat(run.visits()).as("case " + i).hasSize(best.visits);
        assertThat(run.meanGapDeg())
            .as("case " + i)
            .isCloseTo(best.sum / best.visits, within(1e-4));
        holds(run, plans, minutes, free);
        partial += run.left().isEmpty() ? 0 : 1;
      }
    }
    assertThat(partial).isBetween(3, 40);
  }

  /** No visit begins before one can be there, and the gaps told are those of the sun. */
  private static void holds(
      ScoutingRun.Run run, List<Rehearsal.Plan> plans, int[][] minutes, Rehearsal.Free free) {
    ScoutingRun.Visit before = null;
    double sum = 0;
    for (ScoutingRun.Visit visit : run.visits()) {
      Rehearsal.Plan plan = plans.get(visit.plan());
      assertThat(Duration.between(visit.arrive(), visit.leave())).hasMinutes(STAY);
      assertThat(visit.leave()).isBeforeOrEqualTo(plan.at());
      assertThat(visit.leave().atZone(ZONE).toLocalTime()).isBeforeOrEqualTo(free.to());
      if (before != null) {
        int drive = minutes[before.plan()][visit.plan()];
        assertThat(visit.driveMinutes()).isEqualTo(drive);
        assertThat(Duration.between(before.leave(), visit.arrive()).toMinutes())
            .isGreaterThanOrEqualTo(drive);
      }
      Instant middle = visit.arrive().plusSeconds(STAY * 30L);
      assertThat(visit.light().sunGapDeg())
          .isCloseTo(
              SUN.direction(plan.at(), plan.place()).gapDeg(SUN.direction(middle, plan.place())),
              within(1e-4));
      sum += visit.light().sunGapDeg();
      before = visit;
    }
    assertThat(run.meanGapDeg()).isCloseTo(sum / run.visits().size(), within(1e-9));
    assertThat(run.left()).hasSize(plans.size() - run.visits().size());
  }

  private static final class Best {
    private final List<Rehearsal.Plan> plans;
    private final int[][] minutes;
    private final ZonedDateTime end;
    private int visits;
    private double sum;

    Best(List<Rehearsal.Plan> plans, int[][] minutes, Rehearsal.Free free) {
      this.plans = plans;
      this.minutes = minutes;
      this.end = free.last().atTime(free.to()).atZone(ZONE);
    }

    void search(List<Integer> done, ZonedDateTime from, double gaps) {
      if (done.size() > visits || done.size() == visits && visits > 0 && gaps < sum) {
        visits = done.size();
        sum = gaps;
      }
      for (int next = 0; next < plans.size(); next++) {
        if (done.contains(next)) {
          continue;
        }
        int drive = done.isEmpty() ? 0 : minutes[done.get(done.size() - 1)][next];
        ZonedDateTime start = from.plusMinutes((drive + 4) / 5 * 5);
        for (; !start.plusMinutes(STAY).isAfter(end); start = start.plusMinutes(5)) {
          double gap = gap(plans.get(next), start.toInstant());
          if (gap < Double.POSITIVE_INFINITY) {
            done.add(next);
            search(done, start.plusMinutes(STAY), gaps + gap);
            done.remove(done.size() - 1);
          }
        }
      }
    }

    private static double gap(Rehearsal.Plan plan, Instant start) {
      SunDirection planned = SUN.direction(plan.at(), plan.place());
      SunDirection there = SUN.direction(start.plusSeconds(STAY * 30L), plan.place());
      boolean late = start.plusSeconds(STAY * 60L).isAfter(plan.at());
      boolean down = planned.geometricAltitudeDeg() < -6;
      int wanted = state(planned, plan.skyline());
      return late || down || wanted != 0 && wanted != state(there, plan.skyline())
          ? Double.POSITIVE_INFINITY
          : planned.gapDeg(there);
    }

    private static int state(SunDirection sun, Skyline skyline) {
      if (sun.geometricAltitudeDeg() < -0.8333) {
        return -1;
      }
      if (skyline == null) {
        return 0;
      }
      return sun.apparentAltitudeDeg() > skyline.altitudeDegAt(sun.azimuth().trueDeg()) ? 1 : -1;
    }
  }

  private static Skyline hill(Random random) {
    SkylineBuilder builder = new SkylineBuilder();
    double altitudeDeg = random.nextInt(30);
    for (int step = 0; step < Skyline.STEPS; step++) {
      if (step % 60 == 0) {
        altitudeDeg = random.nextInt(30);
      }
      builder.set(step, altitudeDeg, 0.4, SkylineSource.TERRAIN, Set.of());
    }
    return builder.build();
  }

  @Test
  void theDaysThatRehearseMostComeFirst() {
    Rehearsal.Plan plan =
        new Rehearsal.Plan(
            new GeoPoint(41.93, -6.42),
            ZONE,
            null,
            ZonedDateTime.of(2026, 12, 12, 17, 0, 0, 0, ZONE).toInstant());
    List<ScoutingRun.Run> runs =
        new ScoutingRun(SUN)
            .runs(
                List.of(plan),
                Rehearsal.Free.always(LocalDate.of(2026, 11, 25), LocalDate.of(2026, 12, 12)),
                Instant.MIN,
                20,
                (from, to) -> 0);
    assertThat(runs).hasSize(18);
    assertThat(runs.get(0).day()).isEqualTo(LocalDate.of(2026, 12, 11));
    assertThat(runs.get(0).meanGapDeg()).isLessThan(1.0);
  }

  /** One of two that can only be seen at the same time, one over, one without any sun. */
  @Test
  void whatIsLeftOutSaysWhy() {
    LocalDate day = LocalDate.of(2026, 12, 10);
    Rehearsal.Free free =
        new Rehearsal.Free(
            day, day, Set.of(day.getDayOfWeek()), LocalTime.of(17, 0), LocalTime.of(17, 40));
    List<Rehearsal.Plan> plans =
        List.of(
            planned(day.plusDays(2).atTime(17, 10), null),
            planned(day.plusDays(2).atTime(17, 11), null),
            planned(day.atTime(17, 10), null),
            planned(day.plusDays(2).atTime(22, 0), null),
            planned(day.plusDays(2).atTime(13, 0), wall()));
    ScoutingRun.Run run =
        new ScoutingRun(SUN).runs(plans, free, Instant.MIN, 20, (from, to) -> 30).get(0);

    assertThat(run.visits()).hasSize(1);
    assertThat(run.left())
        .extracting(ScoutingRun.Left::why)
        .containsExactly(
            ScoutingRun.Why.NO_TIME,
            ScoutingRun.Why.OVER,
            ScoutingRun.Why.SUN_DOWN,
            ScoutingRun.Why.OTHER_LIGHT);
  }

  @Test
  void noVisitBeginsInThePast() {
    LocalDate today = LocalDate.of(2026, 12, 10);
    Instant now = today.atTime(16, 32).atZone(ZONE).toInstant();
    Rehearsal.Plan plan = planned(today.plusDays(5).atTime(15, 0), null);
    List<ScoutingRun.Run> runs =
        new ScoutingRun(SUN)
            .runs(List.of(plan), Rehearsal.Free.always(today, today), now, STAY, (from, to) -> 0);

    assertThat(runs).hasSize(1);
    assertThat(runs.get(0).visits().get(0).arrive().atZone(ZONE).toLocalTime())
        .isEqualTo(LocalTime.of(16, 35));
  }

  private static Rehearsal.Plan planned(LocalDateTime at, Skyline skyline) {
    return new Rehearsal.Plan(
        new GeoPoint(41.93, -6.42), ZONE, skyline, at.atZone(ZONE).toInstant());
  }

  /** Hides the low sun of the afternoon, and lets that of midday through. */
  private static Skyline wall() {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      builder.set(step, 20, 0.4, SkylineSource.TERRAIN, Set.of());
    }
    return builder.build();
  }

  @Test
  void whatIsNoOutingIsRefused() {
    Rehearsal.Free free = Rehearsal.Free.always(LocalDate.of(2026, 5, 1), LocalDate.of(2026, 5, 2));
    ScoutingRun search = new ScoutingRun(SUN);
    assertThatThrownBy(() -> search.runs(List.of(), free, Instant.MIN, STAY, (from, to) -> 0))
        .hasMessage("expected 1 to 8 moments to rehearse, found 0");
    Rehearsal.Plan plan = new Rehearsal.Plan(new GeoPoint(0, 0), ZONE, null, Instant.EPOCH);
    assertThatThrownBy(() -> search.runs(List.of(plan), free, Instant.MIN, 4, (from, to) -> 0))
        .hasMessage("expected a stay of 5 to 240 minutes, found 4");
  }
}
