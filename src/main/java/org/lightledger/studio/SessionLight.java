package org.lightledger.studio;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
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
import org.lightledger.ask.Asker;
import org.lightledger.ask.Question;
import org.lightledger.ask.Sky;
import org.lightledger.ask.SpotView;
import org.lightledger.ask.StayLight;
import org.lightledger.ask.Stock;
import org.lightledger.ask.TimeOfDay;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;
import org.lightledger.session.KeptPlan;
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

  SessionLight(Asker asker, Stock stock, SunEphemeris sun, SessionHours hours) {
    this.sun = sun;
    this.hours = hours;
    this.asker = asker;
    this.stock = stock;
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
          stretches.addAll(
              along(
                  view(
                      spot,
                      facing.bearing(),
                      skylines.get(spot.id()),
                      seen.getOrDefault(spot.id(), List.of()),
                      Sky.CLEAR),
                  span));
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
    List<Stretch> stretches = new ArrayList<>();
    Instant from = span.start();
    for (StayLight.Span whole : StayLight.of(sun, stay).spans()) {
      Instant until = earlier(whole.window().to().toInstant(), span.end());
      if (from.isBefore(until)) {
        stretches.add(stretch(view, whole.light(), from, until));
        from = until;
      }
    }
    return stretches;
  }

  private Stretch stretch(SpotView view, LightClass light, Instant from, Instant until) {
    Instant middle = from.plus(Duration.between(from, until).dividedBy(2));
    SunDirection there = sun.direction(middle, view.spot().position());
    return new Stretch(
        view.facing(),
        light,
        from.atZone(hours.sun().zone()).toOffsetDateTime(),
        until.atZone(hours.sun().zone()).toOffsetDateTime(),
        view.facing().turnToDeg(there.azimuth()),
        view.tierAt(middle));
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
    SessionHours.Span span = hours.span();
    if (span == null) {
      return List.of();
    }
    Map<Long, Long> warmth = new LinkedHashMap<>();
    for (Trait trait : liked) {
      stock.spotsWith(Set.of(trait)).forEach(id -> warmth.merge(id, 1L, Long::sum));
    }
    Set<Long> seen = new HashSet<>(without);
    return ask(span, wanted).stream()
        .filter(answer -> seen.add(answer.spot().id()))
        .sorted(
            Comparator.comparing((Answer answer) -> -warmth.getOrDefault(answer.spot().id(), 0L)))
        .limit(most)
        .toList();
  }

  /**
   * How many spots have not been seen in any light that they will have during the session.
   *
   * @param spotIds the spots
   * @return a count
   */
  int unseen(Collection<Long> spotIds) {
    SessionHours.Span span = hours.span();
    if (span == null) {
      return 0;
    }
    List<Instant> looks = new ArrayList<>();
    for (Instant at = span.start(); !at.isAfter(span.end()); at = at.plus(LOOK_EVERY)) {
      looks.add(at);
    }
    Known known = new Known(spotIds);
    return (int)
        known.spots().stream()
            .filter(
                spot ->
                    facings(spot).stream()
                        .noneMatch(
                            facing ->
                                looks.stream()
                                    .anyMatch(at -> known.isSeen(spot, facing, at, Sky.CLEAR))))
            .count();
  }

  /**
   * How many spots of a plan have not been seen in the light that is planned for them.
   *
   * @param plan the plan
   * @return a count
   */
  int unseen(KeptPlan plan) {
    Known known = new Known(plan.stops().stream().map(KeptPlan.Stop::spotId).toList());
    Set<Long> unseen = new HashSet<>();
    for (KeptPlan.Stop stop : plan.stops()) {
      Instant middle =
          stop.shootFrom().plus(Duration.between(stop.shootFrom(), stop.shootUntil()).dividedBy(2));
      known.spots().stream()
          .filter(spot -> spot.id() == stop.spotId())
          .filter(spot -> !known.isSeen(spot, stop.facing(), middle, plan.sky()))
          .forEach(spot -> unseen.add(spot.id()));
    }
    return unseen.size();
  }

  /** Where one may look; null stands for any way. */
  private static List<@Nullable Bearing> facings(Spot spot) {
    List<@Nullable Bearing> facings = new ArrayList<>();
    if (spot.open() || spot.facings().isEmpty()) {
      facings.add(null);
    } else {
      spot.facings().forEach(facing -> facings.add(facing.bearing()));
    }
    return facings;
  }

  /** What the ledger knows of some spots. */
  private final class Known {
    private final List<Spot> spots;
    private final Map<Long, Skyline> skylines;
    private final Map<Long, List<Observation>> seen;

    Known(Collection<Long> spotIds) {
      this.spots = new Some(stock, Set.copyOf(spotIds)).spots(null);
      this.skylines = stock.skylines(spotIds);
      this.seen = stock.observations(spotIds);
    }

    List<Spot> spots() {
      return spots;
    }

    /** Whether a shot shows a spot in the light of a moment; any view will do for any way. */
    boolean isSeen(Spot spot, @Nullable Bearing facing, Instant at, Sky sky) {
      List<Observation> shots = seen.getOrDefault(spot.id(), List.of());
      if (facing != null) {
        return view(spot, facing, skylines.get(spot.id()), shots, sky).tierAt(at)
            == Answer.Tier.SCOUTED;
      }
      SunDirection planned = sun.direction(at, spot.position());
      return shots.stream()
          .anyMatch(shot -> shot.sun().gapDeg(planned) <= Answer.LIKE_LIGHT_GAP_DEG);
    }
  }

  private SpotView view(
      Spot spot, Bearing facing, @Nullable Skyline skyline, List<Observation> shots, Sky sky) {
    return new SpotView(sun, spot, facing, Answer.FacingBasis.KNOWN, skyline, shots, sky);
  }

  /** A question does not reach past midnight, so each day of the session has one. */
  private List<Answer> ask(SessionHours.Span span, Set<LightClass> lights) {
    ZoneId zone = hours.sun().zone();
    LocalDateTime start = LocalDateTime.ofInstant(span.start(), zone);
    LocalDateTime end = LocalDateTime.ofInstant(span.end(), zone);
    List<Answer> found = new ArrayList<>();
    for (LocalDate date = start.toLocalDate();
        !date.isAfter(end.toLocalDate());
        date = date.plusDays(1)) {
      LocalTime from = date.equals(start.toLocalDate()) ? minute(start) : LocalTime.MIN;
      LocalTime to = date.equals(end.toLocalDate()) ? minute(end) : LocalTime.of(23, 59);
      // Where clocks go back meanwhile, the end can be told before the start.
      TimeOfDay at = new TimeOfDay.Clock(from, to.isBefore(from) ? from : to);
      Question question = new Question(lights, date, date, at, null);
      found.addAll(asker.ask(question, stock, Integer.MAX_VALUE).matches());
    }
    return found;
  }

  private static LocalTime minute(LocalDateTime moment) {
    return moment.toLocalTime().truncatedTo(ChronoUnit.MINUTES);
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
