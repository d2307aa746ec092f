package org.lightledger.session.planner;

import java.time.Instant;

/**
 * A stretch in which a spot is open: shooting and changing there lie within it.
 *
 * @param opens its start
 * @param closes its end, later
 */
public record OpenWindow(Instant opens, Instant closes) {
  /**
   * Checks the order.
   *
   * @throws IllegalArgumentException when it closes before it opens
   */
  public OpenWindow {
    if (!opens.isBefore(closes)) {
      throw new IllegalArgumentException(
          "expected to close after opening, found " + opens + " and " + closes);
    }
  }
}
