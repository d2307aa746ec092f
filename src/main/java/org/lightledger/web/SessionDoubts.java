package org.lightledger.web;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.lightledger.session.Session;
import org.lightledger.session.SessionHours;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.OtherSessions;
import org.lightledger.studio.Studio;

/** Hours of a session that are hardly meant: of another one too, or after the sun is down. */
public final class SessionDoubts {
  private final Studio studio;
  private final OtherSessions others;

  /**
   * What tells them.
   *
   * @param studio the studio
   */
  public SessionDoubts(Studio studio) {
    this.studio = studio;
    this.others = new OtherSessions(studio);
  }

  /**
   * What there is to doubt.
   *
   * @param session the ledger
   * @param booked the session
   * @param hours its hours
   * @return parts of a sentence, "" for nothing or for a session that is not to come
   */
  public String words(LedgerSession session, Session booked, SessionHours hours) {
    SessionHours.Span span = studio.span(session, booked).orElse(null);
    if (span == null || !booked.state().isOpen()) {
      return "";
    }
    List<String> doubts = new ArrayList<>();
    LocalDate day = booked.date();
    for (OtherSessions.Taken other :
        others.between(session, booked, day.minusDays(1), day.plusDays(1))) {
      if (span.overlaps(other.span())) {
        doubts.add(same(session, other));
      }
    }
    Instant sunset = hours.sun().sunset().orElse(null);
    if (sunset != null && !span.start().isBefore(sunset)) {
      doubts.add("the sun has set before it begins");
    }
    return String.join("; ", doubts);
  }

  private static String same(LedgerSession session, OtherSessions.Taken other) {
    Session theirs = other.session();
    return "another session at the same time: "
        + SessionWords.title(SessionPages.client(session, theirs.clientId()), theirs)
        + ", "
        + SessionWords.span(other.span(), theirs.zone());
  }
}
