package org.lightledger.session;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.sun.SunDay;
import org.lightledger.sun.SunEvening;

/**
 * When a session starts and ends, as instants. Its date is the local day on which it starts; it may
 * end after midnight.
 *
 * @param sun what the sun does on its day and in the evening of it
 * @param span start and end; null when they can not be told
 * @param why why they can not be told, "" when they can
 */
public record SessionHours(SunEvening sun, @Nullable Span span, String why) {

  /**
   * A start and an end.
   *
   * @param start when all meet
   * @param end when it is over, later
   */
  public record Span(Instant start, Instant end) {
    /**
     * Whether two spans have a time in common; one that ends when the other starts has none.
     *
     * @param other another span
     * @return true when they do
     */
    public boolean overlaps(Span other) {
      return start.isBefore(other.end) && other.start.isBefore(end);
    }
  }

  /**
   * Works out the hours of a session.
   *
   * @param session the session
   * @param sun the evening of its date where it takes place
   * @return its hours; a day without a sunset, or a date that does not exist, is named
   */
  public static SessionHours of(Session session, SunEvening sun) {
    return of(session.anchor(), session.terms(), sun);
  }

  /**
   * Works out the hours that an anchor gives.
   *
   * @param anchor what fixes the session in its day
   * @param terms how long it is
   * @param sun the evening of its date where it takes place
   * @return the hours; a day without a sunset, or a date that does not exist, is named
   */
  public static SessionHours of(Anchor anchor, Terms terms, SunEvening sun) {
    if (!(sun.day() instanceof SunDay.Lived lived)) {
      return new SessionHours(sun, null, "this date does not exist here");
    }
    if (!(anchor instanceof Anchor.EndsAtSunset atSunset)) {
      return new SessionHours(
          sun, byClock(anchor, terms, sun.date(), sun.zone()).orElseThrow(), "");
    }
    Instant sunset = sun.sunset().orElse(null);
    if (sunset == null) {
      return unknown(sun, sun.absence());
    }
    Instant end = sunset.plus(Duration.ofMinutes(atSunset.minutesAfter()));
    Span span = new Span(end.minus(length(terms)), end);
    return span.start().isBefore(lived.start())
        ? unknown(sun, "it would start on the day before")
        : new SessionHours(sun, span, "");
  }

  private static SessionHours unknown(SunEvening sun, String why) {
    return new SessionHours(sun, null, why + "; give a time of the clock instead");
  }

  /**
   * The hours that an anchor of the clock gives, for which no place has to be known. An end that
   * would have the session start before its date is that of the next day.
   *
   * @param anchor what fixes the session in its day
   * @param terms how long it is
   * @param date its date
   * @param zone whose clock
   * @return the hours, or nothing for an anchor of the sun
   */
  public static Optional<Span> byClock(Anchor anchor, Terms terms, LocalDate date, ZoneId zone) {
    if (anchor instanceof Anchor.StartsAt starts) {
      Instant start = at(date, starts.time(), zone);
      return Optional.of(new Span(start, start.plus(length(terms))));
    }
    if (anchor instanceof Anchor.EndsAt ends) {
      Instant end = at(date, ends.time(), zone);
      if (end.minus(length(terms)).isBefore(date.atStartOfDay(zone).toInstant())) {
        end = at(date.plusDays(1), ends.time(), zone);
      }
      return Optional.of(new Span(end.minus(length(terms)), end));
    }
    return Optional.empty();
  }

  private static Duration length(Terms terms) {
    return Duration.ofMinutes(terms.lengthMinutes());
  }

  /** A time that a change of the clocks leaves out moves on by as much as they do. */
  private static Instant at(LocalDate date, LocalTime time, ZoneId zone) {
    return date.atTime(time).atZone(zone).toInstant();
  }
}
