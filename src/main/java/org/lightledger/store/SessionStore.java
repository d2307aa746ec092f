package org.lightledger.store;

import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.lightledger.session.Anchor;
import org.lightledger.session.Bookable;
import org.lightledger.session.Session;
import org.lightledger.session.Terms;

/** What clients can book, and the sessions with them. */
public final class SessionStore {
  private static final String PACKAGE =
      "SELECT id, name, outfit_limit, least_stops, most_stops, length_min FROM packages ";
  private static final String SESSION =
      "SELECT id, uid, revision, client_id, date, zone, anchor, package_name, outfit_limit,"
          + " least_stops, most_stops, length_min, state, wishes, pictures, talking_points, goal,"
          + " outcome, notes FROM sessions ";

  private final LedgerSession session;

  SessionStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * The packages that clients can book.
   *
   * @return in the order in which they were added
   */
  public List<Bookable> packages() {
    return session.call(PACKAGE + "ORDER BY id").list(SessionStore::readPackage);
  }

  /**
   * Adds a package.
   *
   * @param terms what it holds
   * @return the ledger's number of it
   * @throws LedgerException when there is one of this name
   */
  public long addPackage(Terms terms) {
    session.changing(LedgerSession.Content.PACKAGES);
    return filled(
            session.call(
                "INSERT INTO packages (name, outfit_limit, least_stops, most_stops, length_min)"
                    + " VALUES (?, ?, ?, ?, ?) RETURNING id"),
            terms)
        .number();
  }

  /**
   * Changes a package. Sessions that are booked keep the terms they were booked under.
   *
   * @param bookable the package with its number
   * @throws LedgerException when there is no such package, or another one of this name
   */
  public void updatePackage(Bookable bookable) {
    session.changing(LedgerSession.Content.PACKAGES);
    requireOne(
        "package",
        bookable.id(),
        filled(
                session.call(
                    "UPDATE packages SET (name, outfit_limit, least_stops, most_stops, length_min)"
                        + " = (?, ?, ?, ?, ?) WHERE id = ?"),
                bookable.terms())
            .integer(bookable.id())
            .run());
  }

  /**
   * Removes a package. Sessions that are booked keep their terms.
   *
   * @param id the ledger's number of it
   * @throws LedgerException when there is none
   */
  public void removePackage(long id) {
    session.changing(LedgerSession.Content.PACKAGES);
    requireOne("package", id, session.call("DELETE FROM packages WHERE id = ?").integer(id).run());
  }

  /**
   * Adds a session.
   *
   * @param booked the session; its number does not count
   * @return the ledger's number of it
   * @throws LedgerException when there is no such client
   */
  public long add(Session booked) {
    session.changing(LedgerSession.Content.SESSIONS);
    Call call =
        session
            .call(
                "INSERT INTO sessions (uid, revision, client_id, date, zone, anchor, package_name,"
                    + " outfit_limit, least_stops, most_stops, length_min, state, wishes, pictures,"
                    + " talking_points, goal, outcome, notes)"
                    + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING id")
            .text(booked.uid())
            .integer(booked.revision())
            .integer(booked.clientId())
            .textOf(booked.date())
            .text(booked.zone().getId())
            .text(booked.anchor().code());
    return filled(filled(call, booked.terms()).name(booked.state()), booked.brief()).number();
  }

  /**
   * Changes when a session is, for whom, and what was booked. Calendars learn of it.
   *
   * @param booked the session with its number; uid, revision, state and brief do not count
   * @throws IllegalArgumentException when it can not become that client's, see {@link
   *     SessionRecords#whyNotFor}
   * @throws LedgerException when there is no such session or client
   */
  public void reschedule(Session booked) {
    session
        .sessionRecords()
        .whyNotFor(booked.id(), booked.clientId())
        .ifPresent(
            why -> {
              throw new IllegalArgumentException(why);
            });
    session.changing(LedgerSession.Content.SESSIONS);
    Call call =
        session
            .call(
                "UPDATE sessions SET (revision, client_id, date, zone, anchor, package_name,"
                    + " outfit_limit, least_stops, most_stops, length_min)"
                    + " = (revision + 1, ?, ?, ?, ?, ?, ?, ?, ?, ?) WHERE id = ?")
            .integer(booked.clientId())
            .textOf(booked.date())
            .text(booked.zone().getId())
            .text(booked.anchor().code());
    requireOne("session", booked.id(), filled(call, booked.terms()).integer(booked.id()).run());
  }

  /**
   * Changes what a session is to be.
   *
   * @param id the ledger's number of it
   * @param brief the words, in place of those before
   * @throws LedgerException when there is no such session
   */
  public void describe(long id, Session.Brief brief) {
    session.changing(LedgerSession.Content.SESSIONS);
    requireOne(
        "session",
        id,
        filled(
                session.call(
                    "UPDATE sessions SET (wishes, pictures, talking_points, goal, outcome, notes)"
                        + " = (?, ?, ?, ?, ?, ?) WHERE id = ?"),
                brief)
            .integer(id)
            .run());
  }

  /**
   * Says how far a session is. Calendars learn of it.
   *
   * @param id the ledger's number of it
   * @param state how far
   * @throws LedgerException when there is no such session
   */
  public void setState(long id, Session.State state) {
    session.changing(LedgerSession.Content.SESSIONS);
    requireOne(
        "session",
        id,
        session
            .call(
                "UPDATE sessions SET (revision, state) = (revision + (state <> ?1), ?1)"
                    + " WHERE id = ?2")
            .name(state)
            .integer(id)
            .run());
  }

  /**
   * Lets calendars know that what they show of a session was changed.
   *
   * @param id the ledger's number of it
   * @throws LedgerException when there is no such session
   */
  public void revise(long id) {
    session.changing(LedgerSession.Content.SESSIONS);
    requireOne(
        "session",
        id,
        session.call("UPDATE sessions SET revision = revision + 1 WHERE id = ?").integer(id).run());
  }

  /**
   * Finds a session.
   *
   * @param id the ledger's number of it
   * @return the session, or nothing when there is none
   */
  public Optional<Session> find(long id) {
    return session.call(SESSION + "WHERE id = ?").integer(id).first(SessionStore::read);
  }

  /**
   * Every session.
   *
   * @return by date, the earliest first
   */
  public List<Session> all() {
    return session.call(SESSION + "ORDER BY date, id").list(SessionStore::read);
  }

  /**
   * The sessions with a client.
   *
   * @param clientId the ledger's number of the client
   * @return by date, the earliest first
   */
  public List<Session> ofClient(long clientId) {
    return session
        .call(SESSION + "WHERE client_id = ? ORDER BY date, id")
        .integer(clientId)
        .list(SessionStore::read);
  }

  /**
   * The sessions that may stop at a spot, or are planned to, or may flee to it.
   *
   * @param spotId the spot
   * @return their dates with their numbers, such as "2026-06-30 (session 4)", by date
   */
  public List<String> titlesWith(long spotId) {
    return session
        .call(
            "SELECT date || ' (session ' || id || ')' FROM sessions WHERE id IN"
                + " (SELECT session_id FROM session_candidates WHERE spot_id = ?1"
                + " UNION SELECT p.session_id FROM plan_stops s JOIN plans p ON p.id = s.plan_id"
                + " WHERE s.spot_id = ?1 OR s.fallback_spot_id = ?1) ORDER BY date, id")
        .integer(spotId)
        .list(Row::text);
  }

  private static Call filled(Call call, Terms terms) {
    return call.text(terms.name())
        .integer(terms.outfitLimit())
        .integer(terms.leastStops())
        .integer(terms.mostStops())
        .integer(terms.lengthMinutes());
  }

  private static Call filled(Call call, Session.Brief brief) {
    return call.text(brief.wishes())
        .text(brief.pictures())
        .text(brief.talkingPoints())
        .text(brief.goal())
        .text(brief.outcome())
        .text(brief.notes());
  }

  private static Bookable readPackage(Row row) throws SQLException {
    long id = row.integer();
    try {
      return new Bookable(id, readTerms(row));
    } catch (IllegalArgumentException e) {
      throw LedgerException.foreign("package " + id, e);
    }
  }

  private static Terms readTerms(Row row) throws SQLException {
    return new Terms(row.text(), row.whole(), row.whole(), row.whole(), row.whole());
  }

  private static Session read(Row row) throws SQLException {
    long id = row.integer();
    try {
      return new Session(
          id,
          row.text(),
          row.whole(),
          row.integer(),
          LocalDate.parse(row.text()),
          ZoneId.of(row.text()),
          Anchor.parse(row.text()),
          readTerms(row),
          Session.State.valueOf(row.text()),
          new Session.Brief(
              row.text(), row.text(), row.text(), row.text(), row.text(), row.text()));
    } catch (IllegalArgumentException | DateTimeException e) {
      throw LedgerException.foreign("session " + id, e);
    }
  }

  private static void requireOne(String what, long id, int changed) {
    if (changed == 0) {
      throw LedgerException.notFound(what, id);
    }
  }
}
