package org.lightledger.session.planner;

/**
 * What is worn.
 *
 * @param outfits how many outfits are worn, one after the other; 1 to {@value #MOST_OUTFITS}
 * @param changeMin a change takes so many minutes, 1 to 60
 * @param tent whether a changing tent is brought along, so that every stop is a place to change
 */
public record OutfitWish(int outfits, int changeMin, boolean tent) {
  /** More outfits than that are not planned. Own choice. */
  public static final int MOST_OUTFITS = 4;

  /** What a change takes unless told otherwise, minutes. Common practice, no source. */
  public static final int USUAL_CHANGE_MIN = 10;

  /**
   * When clothes are changed within a stay, each outfit is worn there at least so many minutes, or
   * as long as one shoots there at least, whichever is less. Own choice.
   */
  public static final int LEAST_WORN_MIN = 10;

  /** One outfit, no change. */
  public static final OutfitWish ONE = new OutfitWish(1, USUAL_CHANGE_MIN, false);

  /**
   * Checks the wish.
   *
   * @throws IllegalArgumentException naming what was found and what was expected
   */
  public OutfitWish {
    if (outfits < 1 || outfits > MOST_OUTFITS) {
      throw new IllegalArgumentException(
          "expected 1 to " + MOST_OUTFITS + " outfits, found " + outfits);
    }
    if (changeMin < 1 || changeMin > 60) {
      throw new IllegalArgumentException(
          "expected a change to take 1 to 60 minutes, found " + changeMin);
    }
  }
}
