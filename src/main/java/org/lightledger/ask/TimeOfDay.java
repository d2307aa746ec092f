package org.lightledger.ask;

import java.time.Duration;
import java.time.LocalTime;

/** The hour of a question, at the place's own clock or by its sun. */
public sealed interface TimeOfDay {

  /**
   * Whether hours are asked for and not a single moment.
   *
   * @return true for a stretch of clock time
   */
  default boolean isRange() {
    return this instanceof Clock clock && !clock.from().equals(clock.to());
  }

  /**
   * A stretch of clock time at the place.
   *
   * @param from first moment
   * @param to last moment; the same as the first for a single moment
   */
  record Clock(LocalTime from, LocalTime to) implements TimeOfDay {
    /**
     * Checks the order.
     *
     * @throws IllegalArgumentException when the end lies before the start
     */
    public Clock {
      if (to.isBefore(from)) {
        throw new IllegalArgumentException(
            "expected a time range that ends after it starts on the same day, found "
                + from
                + ".."
                + to
                + "; ask for the two parts one after the other");
      }
    }
  }

  /**
   * A moment counted from sunrise or sunset at each spot.
   *
   * @param anchor which event
   * @param offset how long after it; negative for before
   */
  record FromSun(Anchor anchor, Duration offset) implements TimeOfDay {}

  /** An event of the sun to count from. */
  enum Anchor {
    /** The upper limb appears at the sea horizon. */
    SUNRISE,
    /** The upper limb disappears at the sea horizon. */
    SUNSET
  }
}
