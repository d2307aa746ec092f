package org.lightledger.studio;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.lightledger.session.Session;
import org.lightledger.session.SessionHours;
import org.lightledger.session.calendar.CalendarFile;
import org.lightledger.session.outgoing.Agenda;
import org.lightledger.session.outgoing.AgendaMaker;
import org.lightledger.session.outgoing.GivenEntry;
import org.lightledger.store.DossierReader;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;
import org.lightledger.sun.SunEphemeris;

/**
 * Gives sessions to the owner's calendar, and remembers what it was given: an entry that is no more
 * is in the next file as a cancelled one, so that the calendar drops it.
 */
public final class CalendarKeeping {
  private final Ledger ledger;
  private final SunEphemeris sun;
  private final Clock clock;
  private final OtherSessions others;

  /**
   * What gives them.
   *
   * @param ledger the ledger
   * @param studio the studio
   * @param sun knows where the sun is
   * @param clock tells the present
   */
  public CalendarKeeping(Ledger ledger, Studio studio, SunEphemeris sun, Clock clock) {
    this.ledger = ledger;
    this.sun = sun;
    this.clock = clock;
    this.others = new OtherSessions(studio);
  }

  /**
   * Makes the calendar file of a session.
   *
   * @param sessionId the ledger's number of the session
   * @return its content (RFC 5545), or nothing when there is no such session
   */
  public Optional<String> file(long sessionId) {
    return ledger.write(
        session -> session.sessions().find(sessionId).map(one -> file(session, one)));
  }

  private String file(LedgerSession session, Session booked) {
    List<GivenEntry> given = session.calendar().ofSession(booked.id());
    Agenda agenda = agenda(session, booked);
    if (isCurrent(given, booked) && differ(given, agenda)) {
      session.sessions().revise(booked.id());
      return write(session, booked, agenda(session, booked).after(toCome(given)));
    }
    return write(session, booked, agenda.after(toCome(given)));
  }

  private String write(LedgerSession session, Session booked, Agenda agenda) {
    session.calendar().give(booked.id(), agenda);
    return CalendarFile.text(agenda, clock.instant());
  }

  private Agenda agenda(LedgerSession session, Session booked) {
    LocalDate day = booked.date();
    List<SessionHours.Span> taken =
        others
            .between(session, booked, day.minusDays(AgendaMaker.REHEARSE_FROM_DAYS + 1), day)
            .stream()
            .map(OtherSessions.Taken::span)
            .toList();
    return AgendaMaker.of(
        sun,
        DossierReader.read(session, booked.id()).orElseThrow(),
        org.lightledger.session.outgoing.Studio.of(session.settings().all()),
        taken,
        clock.instant());
  }

  /**
   * Whether the owner's calendar shows something of a session that is no longer so.
   *
   * @param session the ledger
   * @param booked the session
   * @return true when it was given something, and the session is cancelled since, or the file would
   *     say another thing now
   */
  public boolean isBehind(LedgerSession session, Session booked) {
    List<GivenEntry> given = session.calendar().ofSession(booked.id());
    return !given.isEmpty()
        && !isCurrent(given, booked)
        && (booked.state() == Session.State.CANCELLED || differ(given, agenda(session, booked)));
  }

  /** Whether the calendar was given something at the session's present revision. */
  private static boolean isCurrent(List<GivenEntry> given, Session booked) {
    return given.stream().anyMatch(entry -> entry.revision() == booked.revision());
  }

  /** Whether what was given last says anything else than an agenda does. */
  private boolean differ(List<GivenEntry> given, Agenda agenda) {
    int newest = given.stream().mapToInt(GivenEntry::revision).max().orElse(0);
    Set<GivenEntry> stand =
        toCome(given).stream()
            .filter(entry -> entry.revision() == newest)
            .map(entry -> entry.at(agenda.revision()))
            .collect(Collectors.toSet());
    return !stand.isEmpty() && !stand.equals(Set.copyOf(toCome(agenda.given())));
  }

  /** What is over is the calendar's own history. */
  private List<GivenEntry> toCome(List<GivenEntry> entries) {
    Instant now = clock.instant();
    return entries.stream().filter(entry -> entry.time().to().isAfter(now)).toList();
  }
}
