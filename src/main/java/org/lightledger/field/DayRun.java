package org.lightledger.field;

/**
 * Something that holds from a minute of the day until the next run begins.
 *
 * @param fromMinute minutes from the day's first instant, 0 or more
 * @param code what holds
 */
public record DayRun(int fromMinute, String code) {
  /** Checks the minute. */
  public DayRun {
    if (fromMinute < 0) {
      throw new IllegalArgumentException("expected a minute of 0 or more, found " + fromMinute);
    }
  }
}
