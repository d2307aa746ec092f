package org.lightledger.session;

/**
 * What a client has booked. The numbers that a new package starts with are common practice, no
 * source, and the owner's to change.
 *
 * @param name the package's name, which the client sees
 * @param outfitLimit the most outfits, [1, 12]
 * @param leastStops the fewest stops, [1, mostStops]
 * @param mostStops the most stops, [1, 8]
 * @param lengthMinutes from the call time to the end, minutes, [20, 720]
 */
public record Terms(
    String name, int outfitLimit, int leastStops, int mostStops, int lengthMinutes) {
  /** What a new package starts with. */
  public static final Terms USUAL = new Terms("Outdoor portraits", 4, 2, 5, 150);

  private static final int MOST_OUTFITS = 12;
  private static final int MOST_STOPS = 8;
  private static final int SHORTEST_MINUTES = 20;
  private static final int LONGEST_MINUTES = 720;

  /** Checks the bounds. */
  public Terms {
    Texts.line("the package's name", name);
    Texts.within("outfits", outfitLimit, 1, MOST_OUTFITS);
    Texts.within("the most stops", mostStops, 1, MOST_STOPS);
    Texts.within("the fewest stops", leastStops, 1, mostStops);
    Texts.within("minutes", lengthMinutes, SHORTEST_MINUTES, LONGEST_MINUTES);
  }
}
