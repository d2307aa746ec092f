package org.lightledger.indexing;

import org.lightledger.shot.OwnerWord;

/**
 * How to import.
 *
 * @param word what the owner adds to what the files say
 * @param threads how many files are read at once, 1 or more
 * @param joinDistanceM a shot joins the nearest spot when that lies at most so far away, metres
 */
public record ImportOptions(OwnerWord word, int threads, double joinDistanceM) {
  /** A spot is a few metres wide and a phone's position is off by some more; own choice, metres. */
  public static final double STANDARD_JOIN_DISTANCE_M = 25;

  /** Own choice, metres: beyond, a spot would be a region. */
  public static final double MOST_JOIN_DISTANCE_M = 10_000;

  /**
   * Checks the options.
   *
   * @throws IllegalArgumentException when there is no thread to read with, or the distance is not a
   *     number of metres
   */
  public ImportOptions {
    if (threads < 1) {
      throw new IllegalArgumentException("expected 1 or more threads, found " + threads);
    }
    requireJoinDistance(joinDistanceM);
  }

  static void requireJoinDistance(double joinDistanceM) {
    if (!(joinDistanceM >= 0 && joinDistanceM <= MOST_JOIN_DISTANCE_M)) {
      throw new IllegalArgumentException(
          "expected a distance to join spots in [0, 10000] metres, found " + joinDistanceM);
    }
  }

  /**
   * Options for this machine.
   *
   * @return nothing added, as many threads as processors, the standard distance
   */
  public static ImportOptions standard() {
    return new ImportOptions(
        OwnerWord.NOTHING, Runtime.getRuntime().availableProcessors(), STANDARD_JOIN_DISTANCE_M);
  }
}
