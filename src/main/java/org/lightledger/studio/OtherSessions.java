package org.lightledger.studio;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.lightledger.session.Session;
import org.lightledger.session.SessionHours;
import org.lightledger.store.LedgerSession;

/** When the owner is with other clients. */
public final class OtherSessions {
  private final Studio studio;

  /**
   * What tells it.
   *
   * @param studio the studio
   */
  public OtherSessions(Studio studio) {
    this.studio = studio;
  }

  /**
   * Another session.
   *
   * @param session the session
   * @param span its start and end
   */
  public record Taken(Session session, SessionHours.Span span) {}

  /**
   * The other sessions of some days that are still to be and whose hours can be told.
   *
   * @param ledger the ledger
   * @param booked the session that is not among them
   * @param first the first of the days on which they start
   * @param last the last one
   * @return by date
   */
  public List<Taken> between(
      LedgerSession ledger, Session booked, LocalDate first, LocalDate last) {
    List<Taken> taken = new ArrayList<>();
    for (Session other : ledger.sessions().all()) {
      if (other.id() != booked.id()
          && other.state().isOpen()
          && !other.date().isBefore(first)
          && !other.date().isAfter(last)) {
        studio.span(ledger, other).ifPresent(span -> taken.add(new Taken(other, span)));
      }
    }
    return taken;
  }
}
