package org.lightledger.ask;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Angles;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightRules;
import org.lightledger.skyline.Skyline;
import org.lightledger.sun.SunCurve;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/**
 * Finds when to scout for a planned moment: for each earlier day the minute whose sun is most like
 * the planned one, in the same state of direct sun or shade.
 */
public final class Rehearsal {
  private static final long MINUTE_S = 60;

  /** A difference this small does not show in a portrait, degrees: own choice. */
  private static final double SEEN_DEG = 2.0;

  private static final int NEAR_SOLSTICE_DAYS = 5;

  /**
   * The declination changes by at most 0.4 degrees in a day, so half of that is the nearest day.
   */
  private static final double SAME_DECLINATION_DEG = 0.21;

  private final SunEphemeris sun;

  /**
   * A search for rehearsals.
   *
   * @param sun knows where the sun is
   */
  public Rehearsal(SunEphemeris sun) {
    this.sun = sun;
  }

  /**
   * What is planned.
   *
   * @param place the spot
   * @param zone the zone of the place
   * @param skyline what stands around the spot; null when nothing is known
   * @param at the planned moment
   */
  public record Plan(GeoPoint place, ZoneId zone, @Nullable Skyline skyline, Instant at) {}

  /**
   * When the owner could scout.
   *
   * @param first first local day
   * @param last last local day, at most {@value Question#MOST_DAYS} days in all
   * @param weekdays on which days of the week, at least one
   * @param from earliest clock time
   * @param to latest clock time, not before the earliest
   */
  public record Free(
      LocalDate first, LocalDate last, Set<DayOfWeek> weekdays, LocalTime from, LocalTime to) {

    /**
     * Checks the stretch.
     *
     * @throws IllegalArgumentException naming what was found and what was expected
     */
    public Free {
      if (last.isBefore(first)) {
        throw new IllegalArgumentException(
            "expected a last day on or after the first, found " + first + ".." + last);
      }
      if (first.plusDays(Question.MOST_DAYS).isBefore(last)) {
        throw new IllegalArgumentException(
            "expected at most " + Question.MOST_DAYS + " days, found " + first + ".." + last);
      }
      if (to.isBefore(from)) {
        throw new IllegalArgumentException(
            "expected hours that end after they start, found " + from + ".." + to);
      }
      if (weekdays.isEmpty()) {
        throw new IllegalArgumentException("expected at least one day of the week, found none");
      }
      weekdays = Set.copyOf(EnumSet.copyOf(weekdays));
    }

    /**
     * Any hour of any day.
     *
     * @param first first local day
     * @param last last local day
     * @return the stretch
     */
    public static Free always(LocalDate first, LocalDate last) {
      return new Free(
          first, last, EnumSet.allOf(DayOfWeek.class), LocalTime.MIN, LocalTime.of(23, 59));
    }
  }

  /**
   * An earlier moment.
   *
   * @param at when
   * @param sun where the sun stands then
   * @param sunGapDeg the sun gap to the planned moment, degrees in [0, 180]
   * @param azimuthDifferenceDeg its azimuth less the planned one, degrees in (-180, 180]
   * @param altitudeDifferenceDeg its apparent altitude less the planned one, degrees
   * @param directSun whether the sun reaches the spot then; null while that is not known
   */
  public record Moment(
      OffsetDateTime at,
      SunDirection sun,
      double sunGapDeg,
      double azimuthDifferenceDeg,
      double altitudeDifferenceDeg,
      @Nullable Boolean directSun) {}

  /**
   * Finds the best minute of each day before the planned one.
   *
   * @param plan what is planned
   * @param free when the owner could scout
   * @param now no moment is before it
   * @return one moment for each day that has one in the same state, smallest sun gap first, of
   *     equal ones the earlier; none when the planned sun is below the horizon by more than civil
   *     twilight
   */
  public List<Moment> moments(Plan plan, Free free, Instant now) {
    LocalDate before = plan.at().atZone(plan.zone()).toLocalDate().minusDays(1);
    LocalDate last = free.last().isAfter(before) ? before : free.last();
    LocalDate today = now.atZone(plan.zone()).toLocalDate();
    LocalDate first = free.first().isBefore(today) ? today : free.first();
    SunDirection planned = sun.direction(plan.at(), plan.place());
    if (last.isBefore(first) || planned.geometricAltitudeDeg() < LightRules.TWILIGHT_DOWN_TO_DEG) {
      return List.of();
    }
    SunCurve curve =
        SunCurve.of(
            sun,
            first.minusDays(3).atStartOfDay(ZoneOffset.UTC).toInstant(),
            last.plusDays(4).atStartOfDay(ZoneOffset.UTC).toInstant());
    Boolean direct = state(planned, plan.skyline());
    List<Moment> moments = new ArrayList<>();
    for (LocalDate day = first; !day.isAfter(last); day = day.plusDays(1)) {
      if (free.weekdays().contains(day.getDayOfWeek())) {
        List<Instant> minutes =
            Moments.of(new TimeOfDay.Clock(free.from(), free.to()), day, plan.zone(), MINUTE_S)
                .stream()
                .filter(minute -> !minute.isBefore(now))
                .toList();
        Moment best = bestOf(minutes, plan, planned, direct, curve);
        if (best != null) {
          moments.add(best);
        }
      }
    }
    moments.sort(Comparator.comparingDouble(Moment::sunGapDeg).thenComparing(Moment::at));
    return List.copyOf(moments);
  }

  /** Whether the sun reaches a spot with it there; null while that is not known. */
  static @Nullable Boolean state(SunDirection sun, @Nullable Skyline skyline) {
    return SpotLight.of(sun, sun.azimuth(), skyline).directSun();
  }

  private static @Nullable Moment bestOf(
      List<Instant> minutes,
      Plan plan,
      SunDirection planned,
      @Nullable Boolean direct,
      SunCurve curve) {
    Moment best = null;
    for (Instant minute : minutes) {
      SunDirection direction = curve.direction(minute, plan.place());
      double gapDeg = planned.gapDeg(direction);
      if (best == null || gapDeg < best.sunGapDeg()) {
        Boolean there = state(direction, plan.skyline());
        if (direct == null || Objects.equals(direct, there)) {
          best = moment(minute, plan, planned, direction);
        }
      }
    }
    return best;
  }

  /** An earlier moment held against the planned one. */
  static Moment moment(Instant minute, Plan plan, SunDirection planned, SunDirection direction) {
    return new Moment(
        minute.atZone(plan.zone()).toOffsetDateTime(),
        direction,
        planned.gapDeg(direction),
        Angles.turnDeg(planned.azimuth().trueDeg(), direction.azimuth().trueDeg()),
        direction.apparentAltitudeDeg() - planned.apparentAltitudeDeg(),
        state(direction, plan.skyline()));
  }

  /**
   * What is different at a moment and what that does to the picture, in words.
   *
   * @param moment an earlier moment
   * @return a sentence
   */
  public static String difference(Moment moment) {
    StringBuilder text = new StringBuilder("The sun stands ");
    text.append(part(moment.altitudeDifferenceDeg(), "higher", "lower"))
        .append(" and ")
        .append(part(moment.azimuthDifferenceDeg(), "further right", "further left"));
    if (moment.altitudeDifferenceDeg() >= SEEN_DEG) {
      text.append(": shadows are shorter, and the light is whiter and harder");
    } else if (moment.altitudeDifferenceDeg() <= -SEEN_DEG) {
      text.append(": shadows are longer, and the light is warmer and softer");
    } else if (Math.abs(moment.azimuthDifferenceDeg()) >= SEEN_DEG) {
      text.append(": the light falls from a little more to one side");
    } else {
      text.append(": no difference that can be seen");
    }
    return text.append('.').toString();
  }

  private static String part(double differenceDeg, String more, String less) {
    return Math.abs(differenceDeg) < 0.5
        ? "as " + (more.equals("higher") ? "high" : "far round")
        : String.format(
            Locale.ROOT, "%.0f° %s", Math.abs(differenceDeg), differenceDeg > 0 ? more : less);
  }

  /**
   * The day on the other side of the solstice with the most alike sun path: where the declination
   * is the same.
   *
   * @param day a local day
   * @return the last such day before it within a year; nothing within a few days of a solstice,
   *     when the day before is as alike
   */
  public Optional<LocalDate> mirrorDay(LocalDate day) {
    double wantedDeg = declinationDeg(day);
    LocalDate best = null;
    double bestDeg = Double.POSITIVE_INFINITY;
    double before = declinationDeg(day.minusDays(NEAR_SOLSTICE_DAYS)) - wantedDeg;
    for (int back = NEAR_SOLSTICE_DAYS + 1; back < Question.MOST_DAYS; back++) {
      double difference = declinationDeg(day.minusDays(back)) - wantedDeg;
      if (Math.signum(difference) != Math.signum(before)) {
        boolean nearer = Math.abs(difference) < Math.abs(before);
        best = day.minusDays(nearer ? back : back - 1L);
        bestDeg = Math.min(Math.abs(difference), Math.abs(before));
        break;
      }
      before = difference;
    }
    return bestDeg < SAME_DECLINATION_DEG ? Optional.ofNullable(best) : Optional.empty();
  }

  private double declinationDeg(LocalDate day) {
    return sun.at(day.atTime(12, 0).toInstant(ZoneOffset.UTC)).declinationDeg();
  }
}
