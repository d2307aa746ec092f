package org.lightledger.web;

import java.time.ZoneId;
import org.lightledger.session.SessionHours;

/** The day of a session in words. */
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
}
