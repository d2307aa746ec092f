package org.lightledger.session.planner;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * What the owner has decided about a candidate.
 *
 * @param state whether it may, must or must not be a stop
 * @param position its place in the order, 1 for the first stop; null when any
 * @param shootFrom when shooting there begins; null when any; rounded up to the grid
 */
public record Claim(State state, @Nullable Integer position, @Nullable Instant shootFrom) {

  /** Whether a candidate is a stop. */
  public enum State {
    /** It may be one. */
    FREE,
    /** It must be one. */
    LOCKED,
    /** It must not be one. */
    EXCLUDED
  }

  /** Nothing is decided. */
  public static final Claim FREE = new Claim(State.FREE, null, null);

  /** It is a stop, whenever. */
  public static final Claim LOCKED = new Claim(State.LOCKED, null, null);

  /** It is no stop. */
  public static final Claim EXCLUDED = new Claim(State.EXCLUDED, null, null);

  /**
   * Checks the claim.
   *
   * @throws IllegalArgumentException when a place or a time is given for what is not locked, or the
   *     place is out of its interval
   */
  public Claim {
    if (state != State.LOCKED && (position != null || shootFrom != null)) {
      throw new IllegalArgumentException(
          "expected a place in the order or a time only for a locked stop, found "
              + state
              + " with one");
    }
    if (position != null && (position < 1 || position > StopLimits.MOST_STOPS)) {
      throw new IllegalArgumentException(
          "expected a place in the order of 1 to " + StopLimits.MOST_STOPS + ", found " + position);
    }
  }
}
