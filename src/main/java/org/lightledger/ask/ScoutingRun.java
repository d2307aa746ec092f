package org.lightledger.ask;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.lightledger.light.LightRules;
import org.lightledger.sun.SunCurve;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/**
 * Finds the outing on which several planned moments are rehearsed one after the other: on which
 * day, in which order, and when at each spot. For each day it is the best there is on a grid of
 * {@value #STEP_MINUTES} minutes, by the sum of the sun gaps.
 */
public final class ScoutingRun {
  /** The grid: own choice; the sun moves 1.25 degrees in a step at most. */
  static final int STEP_MINUTES = 5;

  /** More spots than this are no outing, and the search doubles with each. */
  public static final int MOST_SPOTS = 8;

  /** A visit takes at least so long. */
  public static final int SHORTEST_STAY_MINUTES = 5;

  /** A visit takes at most so long: own choice. */
  public static final int LONGEST_STAY_MINUTES = 240;

  /** A look around, some pictures and the walk from and to the car: own choice. */
  public static final int USUAL_STAY_MINUTES = 15;

  private final SunEphemeris sun;

  /**
   * A search for outings.
   *
   * @param sun knows where the sun is
   */
  public ScoutingRun(SunEphemeris sun) {
    this.sun = sun;
  }

  /** Tells how long it takes from one of the spots to another. */
  @FunctionalInterface
  public interface Drives {
    /**
     * The minutes of a drive, parking and walking included.
     *
     * @param from the place of the first in the list of plans
     * @param to the place of the second
     * @return minutes, 0 or more
     */
    int minutes(int from, int to);
  }

  /**
   * A visit on an outing.
   *
   * @param plan the place of the rehearsed moment in the list of plans
   * @param arrive when to be there
   * @param leave when to go on
   * @param driveMinutes the drive to it, 0 for the first
   * @param light the moment in the middle of the visit, held against the planned one
   */
  public record Visit(
      int plan, Instant arrive, Instant leave, int driveMinutes, Rehearsal.Moment light) {}

  /** Why a planned moment is not rehearsed on an outing. */
  public enum Why {
    /** Its sun is below civil twilight. */
    SUN_DOWN("at the planned moment the sun is too far below the horizon to rehearse it"),
    /** It is over before anybody could have been there. */
    OVER("it is planned for before that outing"),
    /** It never has that direct sun or shade in the free hours. */
    OTHER_LIGHT("no moment of your free hours that day is in the same light"),
    /** There are such moments, and the other visits and drives leave none of them. */
    NO_TIME("its moments in the same light do not fit in with the other visits and drives");

    private final String label;

    Why(String label) {
      this.label = label;
    }

    /**
     * The words on screens.
     *
     * @return for example "it is planned for before that outing"
     */
    public String label() {
      return label;
    }
  }

  /**
   * A planned moment that is not rehearsed.
   *
   * @param plan its place in the list of plans
   * @param why what keeps it out
   */
  public record Left(int plan, Why why) {}

  /**
   * An outing.
   *
   * @param day the local day
   * @param visits in order
   * @param left the plans that can not be rehearsed on it, in their order
   * @param meanGapDeg the mean of the sun gaps, degrees
   */
  public record Run(LocalDate day, List<Visit> visits, List<Left> left, double meanGapDeg) {
    /** Keeps own copies. */
    public Run {
      visits = List.copyOf(visits);
      left = List.copyOf(left);
    }
  }

  /**
   * Finds the best outing of each free day.
   *
   * @param plans the planned moments, at most {@value #MOST_SPOTS}; a spot that is planned for
   *     twice is visited twice
   * @param free when the owner could scout, on the clock of the first plan's place
   * @param now no visit begins before it
   * @param stayMinutes how long each visit takes, minutes in [5, 240]
   * @param drives how long the drives take
   * @return those that rehearse most first, among them the smallest mean gap, of equal ones the
   *     earlier day; days on which nothing can be rehearsed are left out
   * @throws IllegalArgumentException naming what was found and what was expected
   */
  public List<Run> runs(
      List<Rehearsal.Plan> plans,
      Rehearsal.Free free,
      Instant now,
      int stayMinutes,
      Drives drives) {
    if (plans.isEmpty() || plans.size() > MOST_SPOTS) {
      throw new IllegalArgumentException(
          "expected 1 to " + MOST_SPOTS + " moments to rehearse, found " + plans.size());
    }
    if (stayMinutes < SHORTEST_STAY_MINUTES || stayMinutes > LONGEST_STAY_MINUTES) {
      throw new IllegalArgumentException(
          "expected a stay of "
              + SHORTEST_STAY_MINUTES
              + " to "
              + LONGEST_STAY_MINUTES
              + " minutes, found "
              + stayMinutes);
    }
    ZoneId zone = plans.get(0).zone();
    SunCurve curve =
        SunCurve.of(
            sun,
            free.first().minusDays(3).atStartOfDay(ZoneOffset.UTC).toInstant(),
            free.last().plusDays(4).atStartOfDay(ZoneOffset.UTC).toInstant());
    List<SunDirection> planned =
        plans.stream().map(plan -> sun.direction(plan.at(), plan.place())).toList();
    Outing outing = new Outing(plans, planned, stayMinutes, drives, curve);
    List<Run> runs = new ArrayList<>();
    for (LocalDate day = free.first(); !day.isAfter(free.last()); day = day.plusDays(1)) {
      if (free.weekdays().contains(day.getDayOfWeek())) {
        List<Instant> starts =
            Moments.of(new TimeOfDay.Clock(free.from(), free.to()), day, zone, STEP_MINUTES * 60L)
                .stream()
                .filter(start -> !start.isBefore(now))
                .toList();
        Run best = outing.best(day, starts);
        if (best != null) {
          runs.add(best);
        }
      }
    }
    runs.sort(
        Comparator.comparingInt((Run run) -> run.left().size())
            .thenComparingDouble(Run::meanGapDeg)
            .thenComparing(Run::day));
    return List.copyOf(runs);
  }

  /** What is the same on every day. */
  private record Outing(
      List<Rehearsal.Plan> plans,
      List<SunDirection> planned,
      int stayMinutes,
      Drives drives,
      SunCurve curve) {

    @Nullable Run best(LocalDate day, List<Instant> starts) {
      double[][] gaps = new double[plans.size()][];
      for (int plan = 0; plan < gaps.length; plan++) {
        gaps[plan] = gaps(plan, starts);
      }
      List<OutingSearch.Visited> visited =
          new OutingSearch(gaps, steps(stayMinutes), this::steps).best();
      return visited.isEmpty() ? null : run(day, starts, visited, gaps);
    }

    private Run run(
        LocalDate day, List<Instant> starts, List<OutingSearch.Visited> visited, double[][] gaps) {
      List<Visit> visits = new ArrayList<>();
      Set<Integer> left = new TreeSet<>(IntStream.range(0, plans.size()).boxed().toList());
      double sumDeg = 0;
      int before = -1;
      for (OutingSearch.Visited next : visited) {
        Visit visit = visit(next.plan(), starts.get(next.time()), before);
        visits.add(visit);
        left.remove(next.plan());
        sumDeg += visit.light().sunGapDeg();
        before = next.plan();
      }
      return new Run(
          day,
          visits,
          left.stream().map(plan -> new Left(plan, why(plan, starts.get(0), gaps[plan]))).toList(),
          sumDeg / visits.size());
    }

    private Why why(int plan, Instant firstStart, double[] gaps) {
      if (isDown(plan)) {
        return Why.SUN_DOWN;
      }
      if (firstStart.plus(Duration.ofMinutes(stayMinutes)).isAfter(plans.get(plan).at())) {
        return Why.OVER;
      }
      return Arrays.stream(gaps).allMatch(Double::isInfinite) ? Why.OTHER_LIGHT : Why.NO_TIME;
    }

    private boolean isDown(int plan) {
      return planned.get(plan).geometricAltitudeDeg() < LightRules.TWILIGHT_DOWN_TO_DEG;
    }

    /**
     * The sun gap in the middle of a visit that starts at each moment; infinite where it may not.
     */
    private double[] gaps(int plan, List<Instant> starts) {
      double[] gaps = new double[starts.size()];
      Arrays.fill(gaps, Double.POSITIVE_INFINITY);
      if (isDown(plan)) {
        return gaps;
      }
      Rehearsal.Plan wanted = plans.get(plan);
      Boolean direct = Rehearsal.state(planned.get(plan), wanted.skyline());
      Instant last = starts.isEmpty() ? wanted.at() : starts.get(starts.size() - 1);
      for (int i = 0; i < gaps.length; i++) {
        Instant leave = starts.get(i).plus(Duration.ofMinutes(stayMinutes));
        if (leave.isAfter(wanted.at()) || leave.isAfter(last)) {
          break;
        }
        SunDirection there = curve.direction(middle(starts.get(i)), wanted.place());
        if (direct == null || Objects.equals(direct, Rehearsal.state(there, wanted.skyline()))) {
          gaps[i] = planned.get(plan).gapDeg(there);
        }
      }
      return gaps;
    }

    private Instant middle(Instant arrive) {
      return arrive.plusSeconds(stayMinutes * 30L);
    }

    private int steps(int from, int to) {
      return steps(drives.minutes(from, to));
    }

    private static int steps(int minutes) {
      return (minutes + STEP_MINUTES - 1) / STEP_MINUTES;
    }

    private Visit visit(int plan, Instant arrive, int before) {
      Rehearsal.Plan wanted = plans.get(plan);
      Instant middle = middle(arrive);
      return new Visit(
          plan,
          arrive,
          arrive.plus(Duration.ofMinutes(stayMinutes)),
          before < 0 ? 0 : drives.minutes(before, plan),
          Rehearsal.moment(
              middle, wanted, planned.get(plan), curve.direction(middle, wanted.place())));
    }
  }
}
