package org.lightledger.studio;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.lightledger.ask.Asker;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.Anchor;
import org.lightledger.session.Answer;
import org.lightledger.session.Candidate;
import org.lightledger.session.ClientQuestion;
import org.lightledger.session.Due;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.LeadDays;
import org.lightledger.session.MessageKind;
import org.lightledger.session.PackItem;
import org.lightledger.session.SentMessage;
import org.lightledger.session.Session;
import org.lightledger.session.SessionHours;
import org.lightledger.session.Terms;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerException;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.LedgerStock;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.sun.SunEvening;

/** The studio at work on a ledger. Safe for use by several threads. */
public final class Studio {
  private final Ledger ledger;
  private final LedgerStock stock;
  private final Asker asker;
  private final SunEphemeris sun;
  private final Clock clock;

  /**
   * A studio.
   *
   * @param ledger its ledger
   * @param asker answers questions about light
   * @param sun knows where the sun is
   * @param clock tells the present
   */
  public Studio(Ledger ledger, Asker asker, SunEphemeris sun, Clock clock) {
    this.ledger = ledger;
    this.stock = new LedgerStock(ledger);
    this.asker = asker;
    this.sun = sun;
    this.clock = clock;
  }

  /**
   * The zone of the studio: where most of its spots lie.
   *
   * @return a zone, UTC when none is known
   */
  public ZoneId zone() {
    return StudioPlace.zone(stock.spots(null));
  }

  /**
   * Today at the studio.
   *
   * @return a date of its zone
   */
  public LocalDate today() {
    return LocalDate.ofInstant(clock.instant(), zone());
  }

  /**
   * What the sun does on a date and in its evening at the middle of the stock.
   *
   * @param date the date
   * @return the evening, or nothing while the ledger has no spots
   */
  public Optional<SunEvening> evening(LocalDate date) {
    List<Spot> spots = stock.spots(null);
    return StudioPlace.middle(spots)
        .map(place -> SunEvening.of(sun, place, StudioPlace.zone(spots), date));
  }

  /**
   * When a session starts and ends, by the sun at the middle of its spots, else of the stock.
   *
   * @param session the ledger
   * @param booked the session
   * @return its hours, or nothing while the ledger has no spots
   */
  public Optional<SessionHours> hours(LedgerSession session, Session booked) {
    List<Spot> spots = spots(session, booked);
    Optional<GeoPoint> middle = StudioPlace.middle(spots);
    return (middle.isPresent() ? middle : StudioPlace.middle(stock.spots(null)))
        .map(place -> SunEvening.of(sun, place, booked.zone(), booked.date()))
        .map(evening -> SessionHours.of(booked, evening));
  }

  /** The spots it may stop at, without those that are left out. */
  private static List<Spot> spots(LedgerSession session, Session booked) {
    List<Spot> spots = new ArrayList<>();
    for (Candidate candidate : session.candidates().of(booked.id())) {
      if (candidate.choice() != Candidate.Choice.EXCLUDED) {
        session.spots().find(candidate.spotId()).ifPresent(spots::add);
      }
    }
    return spots;
  }

  /**
   * The zone of a session's place: where most of the spots lie that it may stop at, else most of
   * the stock.
   *
   * @param session the ledger
   * @param booked the session
   * @return a zone; the session's own when none is known
   */
  ZoneId zone(LedgerSession session, Session booked) {
    return StudioPlace.knownZone(spots(session, booked), booked.zone())
        .or(() -> StudioPlace.knownZone(session.spots().all(), booked.zone()))
        .orElse(booked.zone());
  }

  /**
   * The spots a session may stop at whose clocks show another time than the session's at noon of
   * its day.
   *
   * @param session the ledger
   * @param booked the session
   * @return the spots, each with its zone
   */
  public List<Spot> onOtherClocks(LedgerSession session, Session booked) {
    Instant noon = booked.date().atTime(LocalTime.NOON).atZone(booked.zone()).toInstant();
    return spots(session, booked).stream()
        .filter(spot -> spot.zone() != null && differ(spot.zone(), booked.zone(), noon))
        .toList();
  }

  private static boolean differ(ZoneId one, ZoneId other, Instant at) {
    return !one.getRules().getOffset(at).equals(other.getRules().getOffset(at));
  }

  /**
   * When the owner is with a session's client: by its plan, else by its hours.
   *
   * @param session the ledger
   * @param booked the session
   * @return start and end, or nothing when they can not be told
   */
  public Optional<SessionHours.Span> span(LedgerSession session, Session booked) {
    return session
        .plans()
        .find(booked.id())
        .map(plan -> new SessionHours.Span(plan.callTime(), plan.end()))
        .or(() -> hours(session, booked).map(SessionHours::span));
  }

  /**
   * When a session is over: with its plan, else with its hours, else with its day.
   *
   * @param session the ledger
   * @param booked the session
   * @return the instant
   */
  public Instant over(LedgerSession session, Session booked) {
    return span(session, booked)
        .map(SessionHours.Span::end)
        .orElseGet(() -> booked.date().plusDays(1).atStartOfDay(booked.zone()).toInstant());
  }

  /**
   * Whether a session is over now. The hours are asked for only where the date does not tell.
   *
   * @param session the ledger
   * @param booked the session
   * @return true from its end on
   */
  public boolean isOver(LedgerSession session, Session booked) {
    LocalDate today = today(booked);
    if (mayBeUnderWay(booked, today)) {
      return !clock.instant().isBefore(over(session, booked));
    }
    return booked.date().isBefore(today);
  }

  /** Its day, and the next one until which it may last. */
  private static boolean mayBeUnderWay(Session booked, LocalDate today) {
    return !today.isBefore(booked.date()) && !today.isAfter(booked.date().plusDays(1));
  }

  /**
   * Books a session in the zone of the studio, and gives it what is packed for every session.
   *
   * @param session the ledger, for writing
   * @param clientId the ledger's number of the client
   * @param date the day
   * @param anchor what fixes it in the day
   * @param terms what is booked
   * @return the ledger's number of the session
   * @throws LedgerException when there is no such client
   */
  public long book(
      LedgerSession session, long clientId, LocalDate date, Anchor anchor, Terms terms) {
    long id =
        session
            .sessions()
            .add(
                new Session(
                    0,
                    UUID.randomUUID().toString(),
                    0,
                    clientId,
                    date,
                    zone(),
                    anchor,
                    terms,
                    Session.State.BOOKED,
                    Session.Brief.EMPTY));
    session.packing().packGear(id);
    return id;
  }

  /**
   * The light that spots have during a session.
   *
   * @param hours the session's hours
   * @return what tells it
   */
  public SessionLight light(SessionHours hours) {
    return new SessionLight(asker, stock, sun, hours);
  }

  /**
   * What is due now across all sessions.
   *
   * @return by the sessions' dates
   */
  public List<Due> due() {
    return ledger.read(
        session -> {
          LeadDays leads = LeadDays.read(session.settings()::find);
          List<Due.Progress> progress =
              session.sessions().all().stream()
                  .filter(booked -> booked.state().isOpen())
                  .map(booked -> progress(session, booked, leads))
                  .toList();
          return Due.of(clock.instant(), progress, leads);
        });
  }

  private Due.Progress progress(LedgerSession session, Session booked, LeadDays leads) {
    List<Long> answered =
        session.questionnaire().answers(booked.id()).stream().map(Answer::questionId).toList();
    long missing =
        session.questionnaire().questions().stream()
            .map(ClientQuestion::id)
            .filter(id -> !answered.contains(id))
            .count();
    List<Candidate> candidates = session.candidates().of(booked.id());
    long toPack =
        session.packing().items(booked.id()).stream()
            .map(PackItem::doneAt)
            .filter(doneAt -> doneAt == null)
            .count();
    Optional<KeptPlan> plan = session.plans().find(booked.id());
    return new Due.Progress(
        booked,
        sent(session, booked, plan),
        answered.size(),
        (int) missing,
        candidates.size(),
        plan.isPresent(),
        isNear(booked, leads) ? unseen(session, booked, plan, candidates) : 0,
        (int) toPack,
        mayBeUnderWay(booked, today(booked)) ? over(session, booked) : null);
  }

  private LocalDate today(Session booked) {
    return LocalDate.ofInstant(clock.instant(), booked.zone());
  }

  /** A reminder of hours that are no longer planned is none. */
  private static Set<MessageKind> sent(
      LedgerSession session, Session booked, Optional<KeptPlan> plan) {
    return session.messages().ofSession(booked.id()).stream()
        .filter(
            message ->
                message.kind() != MessageKind.REMINDER
                    || plan.filter(kept -> kept.madeAt().isAfter(message.at())).isEmpty())
        .map(SentMessage::kind)
        .collect(Collectors.toSet());
  }

  /** Only then the light is asked for, which costs more than all else. */
  private boolean isNear(Session booked, LeadDays leads) {
    LocalDate today = today(booked);
    return !booked.date().isBefore(today)
        && !booked.date().minusDays(leads.rehearsal()).isAfter(today);
  }

  /** Of the plan's stops in the light planned for them, else of the candidates in any. */
  private int unseen(
      LedgerSession session, Session booked, Optional<KeptPlan> plan, List<Candidate> candidates) {
    Optional<SessionHours> known = hours(session, booked);
    if (plan.isPresent()) {
      return known.map(hours -> light(hours).unseen(plan.get())).orElse(0);
    }
    List<Long> wanted =
        candidates.stream()
            .filter(candidate -> candidate.choice() != Candidate.Choice.EXCLUDED)
            .map(Candidate::spotId)
            .toList();
    return known
        .filter(hours -> hours.span() != null && !wanted.isEmpty())
        .map(hours -> light(hours).unseen(wanted))
        .orElse(0);
  }
}
