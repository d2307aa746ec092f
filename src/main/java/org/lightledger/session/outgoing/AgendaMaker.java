package org.lightledger.session.outgoing;

import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Answer;
import org.lightledger.ask.Rehearsal;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.MessageKind;
import org.lightledger.session.Session;
import org.lightledger.session.SessionHours;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SunEphemeris;

/**
 * Makes the entries of a calendar: the session, the call time, what is due before it, and when to
 * rehearse. Hours without a source are common practice or own choice.
 */
public final class AgendaMaker {
  /** When the calendar calls for work at the desk: own choice. */
  private static final LocalTime DESK = LocalTime.of(9, 0);

  /** When batteries and cards are seen to, the evening before: own choice. */
  private static final LocalTime EVENING = LocalTime.of(20, 0);

  private static final Duration DESK_TIME = Duration.ofMinutes(15);
  private static final Duration CALL_ALARM = Duration.ofHours(1);
  private static final Duration SESSION_ALARM = Duration.ofHours(3);

  /** Rehearsals are looked for so many days before: own choice, the sun still stands alike. */
  public static final int REHEARSE_FROM_DAYS = 28;

  private static final int REHEARSE_TO_DAYS = 2;
  private static final Set<DayOfWeek> REHEARSE_ON =
      EnumSet.of(DayOfWeek.SATURDAY, DayOfWeek.SUNDAY);

  private final SunEphemeris sun;
  private final Dossier dossier;
  private final Studio studio;
  private final Session session;
  private final ZoneId zone;
  private final String client;
  private final List<SessionHours.Span> taken;
  private final Instant now;
  private final List<Agenda.Entry> entries = new ArrayList<>();

  private AgendaMaker(
      SunEphemeris sun,
      Dossier dossier,
      Studio studio,
      List<SessionHours.Span> taken,
      Instant now) {
    this.now = now;
    this.sun = sun;
    this.dossier = dossier;
    this.studio = studio;
    this.taken = new ArrayList<>(taken);
    this.session = dossier.session();
    this.zone = session.zone();
    this.client = SessionRedaction.firstName(dossier.client());
  }

  /**
   * Makes the entries.
   *
   * @param sun where the sun is
   * @param dossier what the ledger holds of the session
   * @param studio when messages are due
   * @param taken when the owner has other sessions and can not rehearse
   * @param now the present; nothing is rehearsed before it
   * @return the entries
   */
  public static Agenda of(
      SunEphemeris sun,
      Dossier dossier,
      Studio studio,
      List<SessionHours.Span> taken,
      Instant now) {
    AgendaMaker maker = new AgendaMaker(sun, dossier, studio, taken, now);
    maker.messages();
    KeptPlan plan = dossier.plan();
    if (plan != null) {
      maker.rehearsals(plan);
    }
    maker.packing();
    maker.session(plan);
    return new Agenda(
        maker.zone,
        maker.session.revision(),
        maker.session.state() == Session.State.CANCELLED,
        maker.entries);
  }

  private void messages() {
    for (MessageKind kind : MessageKind.values()) {
      add(
          "due-" + kind.label(),
          due(kind),
          "Lightledger has it ready on the page of the session.",
          session.date().minusDays(studio.daysBefore(kind)),
          DESK);
    }
  }

  private String due(MessageKind kind) {
    return switch (kind) {
      case QUESTIONS -> "Send the questions to " + client;
      case PLAN -> "Send the plan to " + client;
      case REMINDER -> "Send the reminder to " + client;
    };
  }

  private void packing() {
    add(
        "evening-before",
        "Batteries, cards and the bag for " + client + "'s session",
        "Charge the batteries, empty the cards, pack.",
        session.date().minusDays(1),
        EVENING);
  }

  private void add(String what, String title, String words, LocalDate date, LocalTime at) {
    Instant from = date.atTime(at).atZone(zone).toInstant();
    entries.add(
        new Agenda.Entry(
            uid(what),
            title,
            words,
            null,
            new Agenda.Span(from, from.plus(DESK_TIME)),
            Duration.ZERO,
            false));
  }

  private void session(@Nullable KeptPlan plan) {
    String title = "Session with " + client;
    if (plan == null) {
      entries.add(
          new Agenda.Entry(
              uid("session"),
              title,
              "Not planned yet.",
              null,
              timeWithoutPlan(),
              SESSION_ALARM,
              true));
      return;
    }
    Agenda.Place place = place();
    Instant call = plan.callTime();
    entries.add(
        new Agenda.Entry(
            uid("session"),
            title,
            stops(plan),
            place,
            new Agenda.Span(call, plan.end()),
            SESSION_ALARM,
            true));
    entries.add(
        new Agenda.Entry(
            uid("call-time"),
            "Call time: meet " + client,
            place == null ? "" : place.words(),
            place,
            new Agenda.Span(call, call.plus(DESK_TIME)),
            CALL_ALARM,
            false));
  }

  /** A sunset needs a place, which only a plan has. */
  private Agenda.Time timeWithoutPlan() {
    return SessionHours.byClock(session.anchor(), session.terms(), session.date(), zone)
        .<Agenda.Time>map(span -> new Agenda.Span(span.start(), span.end()))
        .orElseGet(() -> new Agenda.WholeDay(session.date()));
  }

  private Agenda.@Nullable Place place() {
    SharedSession.Meeting meeting = SessionRedaction.view(dossier).meeting();
    return meeting == null ? null : new Agenda.Place(meeting.words(), meeting.place());
  }

  private String stops(KeptPlan plan) {
    StringBuilder words = new StringBuilder();
    for (KeptPlan.Stop stop : plan.stops()) {
      words
          .append(words.length() == 0 ? "" : "\n")
          .append(Plainly.hour(stop.arrive().atZone(zone).toOffsetDateTime()))
          .append(' ')
          .append(Plainly.line(dossier.spot(stop.spotId()).name()))
          .append(", ")
          .append(Plainly.outfits(SessionRedaction.worn(stop)));
    }
    return words.toString();
  }

  private void rehearsals(KeptPlan plan) {
    Rehearsal rehearsal = new Rehearsal(sun);
    LocalDate date = session.date();
    Rehearsal.Free free =
        new Rehearsal.Free(
            date.minusDays(REHEARSE_FROM_DAYS),
            date.minusDays(REHEARSE_TO_DAYS),
            REHEARSE_ON,
            LocalTime.MIN,
            LocalTime.of(23, 59));
    Set<Long> rehearsed = new HashSet<>();
    for (KeptPlan.Stop stop : plan.stops()) {
      if (!rehearsed.add(stop.spotId())) {
        continue;
      }
      Spot spot = dossier.spot(stop.spotId());
      Instant middle =
          stop.shootFrom().plus(Duration.between(stop.shootFrom(), stop.shootUntil()).dividedBy(2));
      Rehearsal.Plan planned =
          new Rehearsal.Plan(spot.position(), zone, dossier.skylines().get(spot.id()), middle);
      best(rehearsal.moments(planned, free, now)).ifPresent(moment -> rehearse(spot, moment));
    }
  }

  /**
   * The moment with the most alike sun before the plan goes out, so that what is learned can change
   * it; where there is none in like light, the most alike one after it.
   */
  private Optional<Rehearsal.Moment> best(List<Rehearsal.Moment> moments) {
    LocalDate planDue = session.date().minusDays(studio.daysBefore(MessageKind.PLAN));
    List<Rehearsal.Moment> free =
        moments.stream().filter(moment -> isFree(moment.at().toInstant())).toList();
    return free.stream()
        .filter(moment -> moment.at().toLocalDate().isBefore(planDue))
        .filter(moment -> moment.sunGapDeg() <= Answer.LIKE_LIGHT_GAP_DEG)
        .findFirst()
        .or(() -> free.stream().findFirst());
  }

  private boolean isFree(Instant at) {
    SessionHours.Span wanted = new SessionHours.Span(at, at.plus(DESK_TIME));
    return taken.stream().noneMatch(wanted::overlaps);
  }

  private void rehearse(Spot spot, Rehearsal.Moment moment) {
    Instant at = moment.at().toInstant();
    taken.add(new SessionHours.Span(at, at.plus(DESK_TIME)));
    String name = Plainly.line(spot.name());
    entries.add(
        new Agenda.Entry(
            uid("rehearse-" + spot.id()),
            "Rehearse the light: " + name,
            String.format(
                Locale.ROOT,
                "The sun stands %.1f degrees from where it will stand in the session.",
                moment.sunGapDeg()),
            new Agenda.Place(name, spot.position()),
            new Agenda.Span(at, at.plus(DESK_TIME)),
            CALL_ALARM,
            false));
  }

  private String uid(String what) {
    return session.uid() + "-" + what + "@lightledger";
  }
}
