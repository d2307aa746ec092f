package org.lightledger.session.planner;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;

/**
 * When a session is.
 *
 * @param zone the zone of the place, in which times are told
 * @param date its local date
 * @param earliestStart the call time is not before it
 * @param latestEnd the session does not end later, at most 24 hours after the earliest start
 * @param lengthMin from call time to end at most, 1 to 1440 minutes
 * @param gridMin call time and shooting begin and end on a grid of so many minutes, counted from
 *     the earliest start; 1 to 60
 */
public record SessionFrame(
    ZoneId zone,
    LocalDate date,
    Instant earliestStart,
    Instant latestEnd,
    int lengthMin,
    int gridMin) {

  /** The grid unless another is asked for, minutes. Own choice: finer than people keep to. */
  public static final int USUAL_GRID_MIN = 5;

  private static final int MOST_MIN = 1440;
  private static final int COARSEST_GRID_MIN = 60;

  /**
   * Checks the frame.
   *
   * @throws IllegalArgumentException naming what was found and what was expected
   */
  public SessionFrame {
    if (!earliestStart.isBefore(latestEnd)
        || Duration.between(earliestStart, latestEnd).toMinutes() > MOST_MIN) {
      throw new IllegalArgumentException(
          "expected an end after the start, by at most %d minutes; found %s and %s"
              .formatted(MOST_MIN, earliestStart, latestEnd));
    }
    if (lengthMin < 1 || lengthMin > MOST_MIN) {
      throw new IllegalArgumentException(
          "expected a session of 1 to " + MOST_MIN + " minutes, found " + lengthMin);
    }
    if (gridMin < 1 || gridMin > COARSEST_GRID_MIN) {
      throw new IllegalArgumentException(
          "expected a grid of 1 to " + COARSEST_GRID_MIN + " minutes, found " + gridMin);
    }
  }

  /** Whole minutes between the earliest start and the latest end. */
  int spanMin() {
    return Math.toIntExact(Duration.between(earliestStart, latestEnd).toMinutes());
  }

  /** The instant so many minutes after the earliest start. */
  Instant at(int minute) {
    return earliestStart.plus(Duration.ofMinutes(minute));
  }

  /**
   * When a clock at the place shows a time within the frame. A time before the earliest start is
   * that of the next day, when that is not too late.
   *
   * @param time the clock time
   * @return the instant; outside of the frame when no such time is in it
   */
  public Instant at(LocalTime time) {
    LocalDate first = LocalDate.ofInstant(earliestStart, zone);
    Instant sameDay = first.atTime(time).atZone(zone).toInstant();
    Instant nextDay = first.plusDays(1).atTime(time).atZone(zone).toInstant();
    return sameDay.isBefore(earliestStart) && !nextDay.isAfter(latestEnd) ? nextDay : sameDay;
  }

  /** The same session with so many minutes more, which may also lie after the latest end. */
  SessionFrame longer(int lengthMoreMin, int endMoreMin) {
    return new SessionFrame(
        zone,
        date,
        earliestStart,
        latestEnd.plus(Duration.ofMinutes(endMoreMin)),
        lengthMin + lengthMoreMin,
        gridMin);
  }
}
