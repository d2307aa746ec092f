package org.lightledger.store;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * How a spot's place is known.
 *
 * @param byOwner whether the owner set its position
 * @param anchors how many places the owner's hand tied to it, 0 or more
 * @param statedErrors how many of its shots have a GPS position with a stated error
 * @param wideErrors how many of those are off by more than {@link #WIDE_ERROR_M}
 * @param rough whether none of its shots is placed as exactly as shots are joined
 */
public record Standing(
    boolean byOwner, int anchors, int statedErrors, int wideErrors, boolean rough) {
  /** Own choice, metres: four times a phone's error under open sky. The schema has it as well. */
  public static final double WIDE_ERROR_M = 20;

  /**
   * Whether the spot may lie indoors or under cover. A hint and no fact: a canyon of houses does
   * the same to a receiver.
   *
   * @return true when more than half of the stated errors are wide
   */
  public boolean perhapsUnderCover() {
    return 2 * wideErrors > statedErrors;
  }

  /**
   * What the owner should know of the spot's place.
   *
   * @return sentences, each with its reason; empty when there is nothing to say
   */
  public List<String> hints() {
    List<String> hints = new ArrayList<>();
    if (byOwner) {
      hints.add("You set its position; its shots do not move it.");
    }
    if (rough) {
      hints.add("Its place is known roughly: every position of its shots has a large error.");
    }
    if (perhapsUnderCover()) {
      hints.add(
          String.format(
              Locale.ROOT,
              "Perhaps indoors or under cover: %d of %d stated GPS errors are above %.0f m.",
              wideErrors,
              statedErrors,
              WIDE_ERROR_M));
    }
    return hints;
  }
}
