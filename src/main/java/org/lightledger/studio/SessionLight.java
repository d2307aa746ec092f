package org.lightledger.studio;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
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
import org.lightledger.ask.Sky;
import org.lightledger.ask.SpotView;
import org.lightledger.ask.StayLight;
import org.lightledger.ask.Stock;
import org.lightledger.ask.TimeOfDay;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;
import org.lightledger.session.SessionHours;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/** The light that spots have during a session, by the rules of the answers to questions. */
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
    SessionHours.Span span = hours.span();
    ZoneId zone = hours.sun().zone();
    this.date = span == null ? hours.sun().date() : LocalDate.ofInstant(span.start(), zone);
    this.time = span == null ? null : clock(span, zone, date);
  }

  /** The session's hours on the day of its start; a question does not reach past midnight. */
  private static TimeOfDay.Clock clock(SessionHours.Span span, ZoneId zone, LocalDate date) {
    return new TimeOfDay.Clock(
        time(span.start(), zone),
        LocalDate.ofInstant(span.end(), zone).equals(date)
            ? time(span.end(), zone)
            : LocalTime.of(23, 59));
  }

  private static LocalTime time(Instant instant, ZoneId zone) {
    return LocalTime.ofInstant(instant, zone).truncatedTo(ChronoUnit.MINUTES);
  }

  /**
   * A stretch of one light at a spot, within the session's hours.
   *
   * @param facing where the camera looks
   * @param light the light
   * @param from its start
   * @param until its end
   * @param relativeBearingDeg the turn from the facing to the sun in the middle of it, degrees
   * @param tier what it rests on, in the middle of it
   */
  public record Stretch(
      Bearing facing,
      LightClass light,
      OffsetDateTime from,
      OffsetDateTime until,
      double relativeBearingDeg,
      Answer.Tier tier) {}

  /**
   * The light of some spots during the session, along each known facing from beginning to end.
   *
   * @param spotIds the spots
   * @return by spot; none for a spot whose facing is not known, or where any direction works
   */
  public Map<Long, List<Stretch>> at(Collection<Long> spotIds) {
    SessionHours.Span span = hours.span();
    Map<Long, List<Stretch>> lights = new LinkedHashMap<>();
    if (span == null || spotIds.isEmpty()) {
      return lights;
    }
    Map<Long, Skyline> skylines = stock.skylines(spotIds);
    Map<Long, List<Observation>> seen = stock.observations(spotIds);
    for (Spot spot : new Some(stock, Set.copyOf(spotIds)).spots(null)) {
      List<Stretch> stretches = new ArrayList<>();
      if (!spot.open()) {
        for (Facing facing : spot.facings()) {
          SpotView view =
              new SpotView(
                  sun,
                  spot,
                  facing.bearing(),
                  Answer.FacingBasis.KNOWN,
                  skylines.get(spot.id()),
                  seen.getOrDefault(spot.id(), List.of()),
                  Sky.CLEAR);
          stretches.addAll(along(view, span));
        }
      }
      lights.put(spot.id(), stretches);
    }
    return lights;
  }

  private List<Stretch> along(SpotView view, SessionHours.Span span) {
    StayLight.Stay stay =
        new StayLight.Stay(
            view.spot().position(),
            hours.sun().zone(),
            view.facing(),
            view.skyline(),
            view.sky(),
            span.start(),
            span.end());
    return StayLight.of(sun, stay).spans().stream()
        .map(whole -> stretch(view, whole, span))
        .filter(stretch -> stretch.from().isBefore(stretch.until()))
        .toList();
  }

  private Stretch stretch(SpotView view, StayLight.Span whole, SessionHours.Span span) {
    Instant from = later(whole.window().from().toInstant(), span.start());
    Instant until = later(span.start(), earlier(whole.window().to().toInstant(), span.end()));
    Instant middle = from.plus(Duration.between(from, until).dividedBy(2));
    SunDirection there = sun.direction(middle, view.spot().position());
    return new Stretch(
        view.facing(),
        whole.light(),
        from.atZone(hours.sun().zone()).toOffsetDateTime(),
        until.atZone(hours.sun().zone()).toOffsetDateTime(),
        view.facing().turnToDeg(there.azimuth()),
        view.tierAt(middle));
  }

  private static Instant later(Instant one, Instant other) {
    return one.isAfter(other) ? one : other;
  }

  private static Instant earlier(Instant one, Instant other) {
    return one.isBefore(other) ? one : other;
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
