package org.lightledger.studio;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Answer;
import org.lightledger.ask.Answers;
import org.lightledger.ask.Asker;
import org.lightledger.ask.Question;
import org.lightledger.ask.Stock;
import org.lightledger.ask.TimeOfDay;
import org.lightledger.light.LightClass;
import org.lightledger.session.SessionHours;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/** The light that spots have during a session, as the question on the start page tells it. */
public final class SessionLight {
  /** The sun moves two degrees meanwhile, a fifth of what still counts as like light. */
  private static final Duration LOOK_EVERY = Duration.ofMinutes(8);

  private final Asker asker;
  private final SunEphemeris sun;
  private final SessionHours hours;
  private final Stock stock;
  private final LocalDate date;
  private final TimeOfDay.@Nullable Clock time;

  SessionLight(Asker asker, Stock stock, SunEphemeris sun, SessionHours hours) {
    this.sun = sun;
    this.hours = hours;
    this.asker = asker;
    this.stock = stock;
    this.date = hours.sun().date();
    this.time = hours.span() == null ? null : clock(hours.span(), hours.sun().zone(), date);
  }

  /** The session's hours on its date; a question does not reach past midnight. */
  private static TimeOfDay.Clock clock(SessionHours.Span span, ZoneId zone, LocalDate date) {
    return new TimeOfDay.Clock(
        time(span.start(), zone, date, LocalTime.MIN),
        time(span.end(), zone, date, LocalTime.of(23, 59)));
  }

  private static LocalTime time(Instant instant, ZoneId zone, LocalDate date, LocalTime otherwise) {
    return LocalDate.ofInstant(instant, zone).equals(date)
        ? LocalTime.ofInstant(instant, zone).truncatedTo(ChronoUnit.MINUTES)
        : otherwise;
  }

  /**
   * The lights of some spots during the session, in order of time.
   *
   * @param spotIds the spots
   * @return by spot; none for a spot whose facing is not known
   */
  public Map<Long, List<Answer>> at(Collection<Long> spotIds) {
    Map<Long, List<Answer>> lights = new LinkedHashMap<>();
    spotIds.forEach(id -> lights.put(id, new ArrayList<>()));
    if (time == null || spotIds.isEmpty()) {
      return lights;
    }
    for (LightClass light : LightClass.values()) {
      Answers answers = ask(time, EnumSet.of(light), new Some(stock, Set.copyOf(spotIds)));
      for (Answer answer : answers.matches()) {
        lights.getOrDefault(answer.spot().id(), new ArrayList<>()).add(answer);
      }
    }
    lights
        .values()
        .forEach(
            list -> list.sort(Comparator.comparing((Answer answer) -> answer.window().from())));
    return lights;
  }

  /**
   * Spots of the stock that have a light during the session.
   *
   * @param wanted which light, at least one class
   * @param liked what the place should be or have; spots with most of it come first
   * @param without spots that are left out
   * @param most how many at most
   * @return one answer for each spot, best first
   */
  public List<Answer> propose(
      Set<LightClass> wanted, Set<Trait> liked, Set<Long> without, int most) {
    if (time == null) {
      return List.of();
    }
    Answers answers = ask(time, wanted, stock);
    Map<Long, Long> warmth = new LinkedHashMap<>();
    for (Trait trait : liked) {
      stock.spotsWith(Set.of(trait)).forEach(id -> warmth.merge(id, 1L, Long::sum));
    }
    Set<Long> seen = new HashSet<>(without);
    return answers.matches().stream()
        .filter(answer -> seen.add(answer.spot().id()))
        .sorted(
            Comparator.comparing((Answer answer) -> -warmth.getOrDefault(answer.spot().id(), 0L)))
        .limit(most)
        .toList();
  }

  /**
   * How many spots have not been seen under any sun that they will have during the session.
   *
   * @param spotIds the spots
   * @return a count
   */
  int unseen(Collection<Long> spotIds) {
    SessionHours.Span span = hours.span();
    if (span == null) {
      return 0;
    }
    Map<Long, List<Observation>> observations = stock.observations(spotIds);
    List<Spot> spots = new Some(stock, Set.copyOf(spotIds)).spots(null);
    return (int)
        spots.stream()
            .filter(spot -> !seen(spot, observations.getOrDefault(spot.id(), List.of()), span))
            .count();
  }

  private boolean seen(Spot spot, List<Observation> observations, SessionHours.Span span) {
    for (Instant at = span.start(); !at.isAfter(span.end()); at = at.plus(LOOK_EVERY)) {
      SunDirection planned = sun.direction(at, spot.position());
      for (Observation observation : observations) {
        if (observation.sun().gapDeg(planned) <= Answer.LIKE_LIGHT_GAP_DEG) {
          return true;
        }
      }
    }
    return false;
  }

  private Answers ask(TimeOfDay.Clock at, Set<LightClass> lights, Stock among) {
    return asker.ask(new Question(lights, date, date, at, null), among, Integer.MAX_VALUE);
  }

  /** Some spots of a stock, by their numbers. */
  private static final class Some extends StockPart {
    private final Set<Long> ids;

    Some(Stock whole, Set<Long> ids) {
      super(whole);
      this.ids = ids;
    }

    @Override
    boolean holds(Spot spot) {
      return ids.contains(spot.id());
    }
  }
}
