package org.lightledger.store;

import java.util.List;
import org.lightledger.session.outgoing.Agenda;
import org.lightledger.session.outgoing.GivenEntry;

/** What of sessions the owner's calendar was given. */
public final class CalendarStore {
  private final LedgerSession session;

  CalendarStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * The entries that the owner's calendar was given of a session, see {@link Agenda#given}.
   *
   * @param sessionId the ledger's number of the session
   * @return in the order in which they were given first
   */
  public List<GivenEntry> ofSession(long sessionId) {
    return session
        .call(
            "SELECT uid, title, from_ms, to_ms, revision FROM calendar_entries"
                + " WHERE session_id = ? ORDER BY id")
        .integer(sessionId)
        .list(
            row ->
                new GivenEntry(
                    row.text(),
                    row.text(),
                    new Agenda.Span(row.instant(), row.instant()),
                    row.whole()));
  }

  /**
   * Notes what the owner's calendar is given. Entries that it was given before and that are not
   * among these stay noted.
   *
   * @param sessionId the ledger's number of the session
   * @param agenda what it is given
   * @throws LedgerException when there is no such session
   */
  public void give(long sessionId, Agenda agenda) {
    session.changing(LedgerSession.Content.CALENDAR_ENTRIES);
    for (GivenEntry entry : agenda.given()) {
      session
          .call(
              "INSERT INTO calendar_entries (session_id, uid, title, from_ms, to_ms, revision)"
                  + " VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT (uid) DO UPDATE SET"
                  + " title = excluded.title, from_ms = excluded.from_ms,"
                  + " to_ms = excluded.to_ms, revision = excluded.revision")
          .integer(sessionId)
          .text(entry.uid())
          .text(entry.title())
          .millis(entry.time().from())
          .millis(entry.time().to())
          .integer(entry.revision())
          .run();
    }
  }
}
