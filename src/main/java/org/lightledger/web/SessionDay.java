package org.lightledger.web;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Optional;
import org.lightledger.session.Session;
import org.lightledger.session.SessionHours;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.Studio;

/** What the present has to say to the day of a session. */
public final class SessionDay {
  private SessionDay() {}

  /**
   * From when to when a session is.
   *
   * @param span its start and end
   * @param zone the zone of its place
   * @return for example "15:25 to 17:55"
   */
  public static String hours(SessionHours.Span span, ZoneId zone) {
    return SessionWords.span(span, zone);
  }

  /**
   * That a session is on a day that is over: it may be entered afterwards, or be a slip.
   *
   * @param booked the session
   * @param now the present
   * @return two sentences, "" for today and later days
   */
  public static String past(Session booked, Instant now) {
    return booked.date().isBefore(LocalDate.ofInstant(now, booked.zone()))
        ? Words.day(booked.date()) + " is before today. If it was not meant, change the day."
        : "";
  }

  /**
   * Why a session can not be said to be done.
   *
   * @param studio tells its hours
   * @param session the ledger
   * @param booked the session
   * @param now the present
   * @return what was found and expected, or nothing once it has begun
   */
  public static Optional<String> whyNotDone(
      Studio studio, LedgerSession session, Session booked, Instant now) {
    Optional<Instant> begins = studio.span(session, booked).map(SessionHours.Span::start);
    Instant earliest =
        begins.orElseGet(() -> booked.date().atStartOfDay(booked.zone()).toInstant());
    return now.isBefore(earliest)
        ? Optional.of(
            "expected a session that has begun, found one that begins on "
                + Words.day(LocalDate.ofInstant(earliest, booked.zone()))
                + begins.map(at -> " at " + SessionWords.hour(at, booked.zone())).orElse("")
                + "; say that it is done once it has been")
        : Optional.empty();
  }
}
