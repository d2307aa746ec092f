package org.lightledger.studio;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Sky;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.session.Candidate;
import org.lightledger.session.OpenHours;
import org.lightledger.session.Session;
import org.lightledger.session.SessionHours;
import org.lightledger.session.drive.Place;
import org.lightledger.session.planner.Claim;
import org.lightledger.session.planner.LightWeights;
import org.lightledger.session.planner.OpenWindow;
import org.lightledger.session.planner.OutfitWish;
import org.lightledger.session.planner.PlanCandidate;
import org.lightledger.session.planner.PlanRequest;
import org.lightledger.session.planner.SessionFrame;
import org.lightledger.session.planner.Spare;
import org.lightledger.session.planner.StopLimits;
import org.lightledger.session.planner.SunlightMaker;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.NearSpot;
import org.lightledger.sun.SunEphemeris;

/** Puts together what the planner needs from a session, its candidates and the stock. */
public final class SessionPlanning {
  /** The least minutes at a stop, unless the owner says how long: own choice. */
  private static final int LEAST_STAY_MIN = 15;

  /** Other spots this near to a candidate can stand in for it, metres: own choice. */
  private static final double SPARE_REACH_M = 3000;

  /** So many of them are looked at: own choice, as each costs its light. */
  private static final int MOST_SPARES = 24;

  private final Studio studio;
  private final RegionRoads roads;
  private final SunEphemeris sun;
  private final Clock clock;

  /**
   * Planning for a studio.
   *
   * @param studio the studio
   * @param roads the roads of its maps
   * @param sun knows where the sun is
   * @param clock tells the present
   */
  public SessionPlanning(Studio studio, RegionRoads roads, SunEphemeris sun, Clock clock) {
    this.studio = studio;
    this.roads = roads;
    this.sun = sun;
    this.clock = clock;
  }

  /**
   * What there is to plan.
   *
   * @param request what the planner needs; null when something is missing
   * @param missing what is missing and what to do, "" for nothing
   */
  public record Prepared(@Nullable PlanRequest request, String missing) {}

  /**
   * What the clock says when a plan is made.
   *
   * @return the present
   */
  public Instant now() {
    return clock.instant();
  }

  /**
   * Puts the request together.
   *
   * @param session the ledger
   * @param booked the session
   * @param wish what the owner wishes
   * @return the request, or what is missing
   */
  public Prepared prepare(LedgerSession session, Session booked, PlanWish wish) {
    List<Candidate> candidates = session.candidates().of(booked.id());
    if (candidates.stream().noneMatch(one -> one.choice() != Candidate.Choice.EXCLUDED)) {
      return new Prepared(null, "No spot to choose from: add the spots that it may stop at.");
    }
    SessionHours hours = studio.hours(session, booked).orElse(null);
    SessionHours.Span span = hours == null ? null : hours.span();
    if (hours == null || span == null) {
      return new Prepared(
          null, "Its hours can not be told: " + (hours == null ? "no spots yet" : hours.why()));
    }
    SessionFrame frame =
        new SessionFrame(
            booked.zone(),
            booked.date(),
            span.start(),
            span.end(),
            booked.terms().lengthMinutes(),
            SessionFrame.USUAL_GRID_MIN);
    SunlightMaker light =
        new SunlightMaker(sun, frame.earliestStart(), booked.terms().lengthMinutes());
    Set<Trait> liked =
        session.questionnaire().answers(booked.id()).stream()
            .flatMap(answer -> answer.places().stream())
            .collect(Collectors.toSet());
    List<PlanCandidate> choices = new ArrayList<>();
    List<Place> places = new ArrayList<>();
    for (Candidate candidate : candidates) {
      Spot spot = session.spots().find(candidate.spotId()).orElseThrow();
      choices.add(candidate(session, booked, frame, candidate, spot, light, liked));
      places.add(new Place(spot.id(), spot.position()));
    }
    List<Spare> spares = spares(session, places, light);
    spares.forEach(spare -> places.add(new Place(spare.spotId(), spare.place())));
    GeoPoint meeting = wish.meeting().place();
    return new Prepared(
        new PlanRequest(
            frame,
            new StopLimits(
                booked.terms().leastStops(),
                Math.min(StopLimits.MOST_STOPS, booked.terms().mostStops()),
                StopLimits.USUAL.handlingMin()),
            new OutfitWish(wish.outfits(), wish.changeMinutes(), wish.tent()),
            wish.sky(),
            choices,
            roads.drives(session).table(places, meeting == null ? null : new Place(0, meeting)),
            spares),
        "");
  }

  private static PlanCandidate candidate(
      LedgerSession session,
      Session booked,
      SessionFrame frame,
      Candidate candidate,
      Spot spot,
      SunlightMaker light,
      Set<Trait> liked) {
    Skyline skyline = skyline(session, spot);
    List<Observation> seen = observations(session, spot);
    Set<Trait> traits = session.traits().of(spot.id());
    Integer stay = candidate.stayMinutes();
    int share = booked.terms().lengthMinutes() / booked.terms().leastStops();
    OpenHours open = session.drives().hours(spot.id()).orElse(null);
    return new PlanCandidate(
        spot.id(),
        spot.name(),
        spot.position(),
        light.of(spot, skyline, seen, Sky.CLEAR),
        light.of(spot, skyline, seen, Sky.OVERCAST),
        weights(candidate.wanted()),
        stay == null ? Math.min(LEAST_STAY_MIN, share) : stay,
        stay == null ? Math.max(LEAST_STAY_MIN, share) : stay,
        open == null ? List.of() : windows(open, frame),
        traits.contains(Trait.PLACE_TO_CHANGE),
        claim(candidate, frame),
        traits.stream().anyMatch(liked::contains) ? 1 : 0);
  }

  private static LightWeights weights(Set<LightClass> wanted) {
    if (wanted.isEmpty()) {
      return LightWeights.USUAL;
    }
    Map<LightClass, Double> weights = new EnumMap<>(LightClass.class);
    wanted.forEach(light -> weights.put(light, 1.0));
    return new LightWeights(weights);
  }

  private static Claim claim(Candidate candidate, SessionFrame frame) {
    LocalTime arrival = candidate.arrival();
    return switch (candidate.choice()) {
      case FREE -> Claim.FREE;
      case EXCLUDED -> Claim.EXCLUDED;
      case LOCKED ->
          arrival == null
              ? Claim.LOCKED
              : new Claim(
                  Claim.State.LOCKED,
                  null,
                  frame.at(arrival).plus(Duration.ofMinutes(StopLimits.USUAL.handlingMin())));
    };
  }

  /** The opening hours of each local day that the session touches. */
  private static List<OpenWindow> windows(OpenHours open, SessionFrame frame) {
    ZoneId zone = frame.zone();
    List<OpenWindow> windows = new ArrayList<>();
    LocalDate last = LocalDate.ofInstant(frame.latestEnd(), zone);
    for (LocalDate day = LocalDate.ofInstant(frame.earliestStart(), zone);
        !day.isAfter(last);
        day = day.plusDays(1)) {
      Instant opens = day.atTime(open.opens()).atZone(zone).toInstant();
      Instant closes = day.atTime(open.closes()).atZone(zone).toInstant();
      if (opens.isBefore(closes)) {
        windows.add(new OpenWindow(opens, closes));
      }
    }
    return windows;
  }

  /** The nearest other spots around the candidates. */
  private static List<Spare> spares(
      LedgerSession session, List<Place> candidates, SunlightMaker light) {
    Set<Long> taken =
        new HashSet<>(candidates.stream().map(Place::spotId).collect(Collectors.toSet()));
    List<NearSpot> near = new ArrayList<>();
    for (Place candidate : candidates) {
      for (NearSpot found : session.spotSearch().within(candidate.point(), SPARE_REACH_M)) {
        if (taken.add(found.spot().id())) {
          near.add(found);
        }
      }
    }
    return near.stream()
        .limit(MOST_SPARES)
        .map(NearSpot::spot)
        .map(
            spot ->
                new Spare(
                    spot.id(),
                    spot.name(),
                    spot.position(),
                    isUnderCover(session.traits().of(spot.id())),
                    light.of(spot, skyline(session, spot), observations(session, spot), Sky.CLEAR)))
        .toList();
  }

  private static boolean isUnderCover(Collection<Trait> traits) {
    return traits.contains(Trait.COVERED) || traits.contains(Trait.INDOORS);
  }

  private static @Nullable Skyline skyline(LedgerSession session, Spot spot) {
    return session.skylines().ofSpots(List.of(spot.id())).get(spot.id());
  }

  private static List<Observation> observations(LedgerSession session, Spot spot) {
    return session.observations().ofSpots(List.of(spot.id())).getOrDefault(spot.id(), List.of());
  }
}
