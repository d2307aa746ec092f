package org.lightledger.ask;

import java.time.DayOfWeek;
import java.time.Duration;
import java.util.EnumSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.spot.Trait;

/**
 * What else a question asks for.
 *
 * @param sky what the sky is like
 * @param sun whether direct sun or shade is wanted
 * @param weekdays on which days of the week, at least one
 * @param atLeast how long the light must last, 0 to 24 hours
 * @param traits what the place must be or have, all of them
 * @param shape the area that it must lie in, or null for anywhere
 */
public record Terms(
    Sky sky,
    SunWanted sun,
    Set<DayOfWeek> weekdays,
    Duration atLeast,
    Set<Trait> traits,
    @Nullable Shape shape) {

  private static final Duration LONGEST = Duration.ofHours(24);

  /** No terms: a clear sky, and everything else goes. */
  public static final Terms NONE =
      new Terms(
          Sky.CLEAR,
          SunWanted.EITHER,
          EnumSet.allOf(DayOfWeek.class),
          Duration.ZERO,
          Set.of(),
          null);

  /** Whether the sun is to reach the spot. */
  public enum SunWanted {
    /** Either way. */
    EITHER,
    /** The sun reaches the spot. */
    DIRECT,
    /** It does not. */
    SHADE
  }

  /**
   * Checks the terms.
   *
   * @throws IllegalArgumentException naming what was found and what was expected
   */
  public Terms {
    if (weekdays.isEmpty()) {
      throw new IllegalArgumentException("expected at least one day of the week, found none");
    }
    if (atLeast.isNegative() || atLeast.compareTo(LONGEST) > 0) {
      throw new IllegalArgumentException(
          "expected a length of 0 to 1440 minutes, found " + atLeast.toMinutes());
    }
    weekdays = Set.copyOf(EnumSet.copyOf(weekdays));
    traits = Set.copyOf(traits);
  }
}
