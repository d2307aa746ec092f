package org.lightledger.session;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.sun.SunDay;
import org.lightledger.sun.SunEvent;
import org.lightledger.sun.SunEventKind;

/**
 * When a session starts and ends, as instants.
 *
 * @param sun what the sun does on its day
 * @param span start and end; null when they can not be told
 * @param why why they can not be told, "" when they can
 */
public record SessionHours(SunDay sun, @Nullable Span span, String why) {

  /**
   * A start and an end.
   *
   * @param start when all meet
   * @param end when it is over, later
   */
  public record Span(Instant start, Instant end) {}

  /**
   * Works out the hours of a session.
   *
   * @param session the session
   * @param sun what the sun does on its date where it takes place
   * @return its hours; a day without a sunset, or a date that does not exist, is named
   */
  public static SessionHours of(Session session, SunDay sun) {
    return of(session.anchor(), session.terms(), sun);
  }

  /**
   * Works out the hours that an anchor gives.
   *
   * @param anchor what fixes the session in its day
   * @param terms how long it is
   * @param sun what the sun does on its date where it takes place
   * @return the hours; a day without a sunset, or a date that does not exist, is named
   */
  public static SessionHours of(Anchor anchor, Terms terms, SunDay sun) {
    if (!(sun instanceof SunDay.Lived)) {
      return new SessionHours(sun, null, "this date does not exist here");
    }
    Duration length = Duration.ofMinutes(terms.lengthMinutes());
    if (anchor instanceof Anchor.StartsAt starts) {
      Instant start = at(starts.time(), sun);
      return new SessionHours(sun, new Span(start, start.plus(length)), "");
    }
    if (anchor instanceof Anchor.EndsAt ends) {
      return endingAt(at(ends.time(), sun), length, sun);
    }
    int minutesAfter = ((Anchor.EndsAtSunset) anchor).minutesAfter();
    return sunset(sun)
        .map(sunset -> endingAt(sunset.plus(Duration.ofMinutes(minutesAfter)), length, sun))
        .orElseGet(
            () ->
                new SessionHours(
                    sun,
                    null,
                    sun.absence(SunEventKind.SUNSET).orElse("the sun does not set")
                        + "; give a time of the clock instead"));
  }

  /**
   * The last sunset of the day.
   *
   * @param sun what the sun does
   * @return when, or nothing on a day without one
   */
  public static Optional<Instant> sunset(SunDay sun) {
    List<SunEvent> sunsets = sun.events(SunEventKind.SUNSET);
    return sunsets.isEmpty() ? Optional.empty() : Optional.of(sunsets.get(sunsets.size() - 1).at());
  }

  private static SessionHours endingAt(Instant end, Duration length, SunDay sun) {
    return new SessionHours(sun, new Span(end.minus(length), end), "");
  }

  /** A time that a change of the clocks leaves out moves on by as much as they do. */
  private static Instant at(LocalTime time, SunDay sun) {
    return sun.date().atTime(time).atZone(sun.zone()).toInstant();
  }
}
