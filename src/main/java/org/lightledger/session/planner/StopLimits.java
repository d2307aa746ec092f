package org.lightledger.session.planner;

/**
 * How many stops a session makes.
 *
 * @param least at least so many, 1 or more
 * @param most at most so many, up to {@value #MOST_STOPS}
 * @param handlingMin after each arrival so many minutes pass until shooting can begin: to park,
 *     unload and walk; 0 to 120
 */
public record StopLimits(int least, int most, int handlingMin) {
  /** More stops than that are not planned. */
  public static final int MOST_STOPS = 6;

  /** Two to five stops, five minutes after each arrival. Own choice. */
  public static final StopLimits USUAL = new StopLimits(2, 5, 5);

  /**
   * Checks the limits.
   *
   * @throws IllegalArgumentException naming what was found and what was expected
   */
  public StopLimits {
    if (least < 1 || most < least || most > MOST_STOPS) {
      throw new IllegalArgumentException(
          "expected at least 1 stop and at most %d, found %d to %d"
              .formatted(MOST_STOPS, least, most));
    }
    if (handlingMin < 0 || handlingMin > 120) {
      throw new IllegalArgumentException(
          "expected 0 to 120 minutes after an arrival, found " + handlingMin);
    }
  }
}
