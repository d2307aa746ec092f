package org.lightledger.share;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What came back through a share, as the ledger keeps it. Answers to the owner's questions are kept
 * with the session.
 *
 * @param picks what the client says of spots
 * @param words what the client says of all of it, "" for nothing
 * @param outfits the pictures of outfits, the earliest first
 */
public record Returned(List<Pick> picks, String words, List<Outfit> outfits) {
  /** Nothing yet. */
  public static final Returned NOTHING = new Returned(List.of(), "", List.of());

  /** Keeps own copies. */
  public Returned {
    picks = List.copyOf(picks);
    outfits = List.copyOf(outfits);
  }

  /**
   * What a client says of a spot.
   *
   * @param spotId the spot
   * @param favourite whether the client likes it best
   * @param words the client's words, "" for none
   */
  public record Pick(long spotId, boolean favourite, String words) {
    /**
     * Whether anything is said.
     *
     * @return false without a mark and words
     */
    public boolean saysSomething() {
      return favourite || !words.isEmpty();
    }
  }

  /**
   * A picture of an outfit.
   *
   * @param id the ledger's number of it
   * @param sentAt when it was sent
   * @param bytes its length
   */
  public record Outfit(long id, Instant sentAt, long bytes) {}

  /**
   * What the client says of a spot.
   *
   * @param spotId the spot
   * @return the pick, or null for none
   */
  public @Nullable Pick pick(long spotId) {
    return picks.stream().filter(pick -> pick.spotId() == spotId).findFirst().orElse(null);
  }

  /**
   * Whether nothing came back.
   *
   * @return true without picks, words and pictures
   */
  public boolean isEmpty() {
    return picks.isEmpty() && words.isEmpty() && outfits.isEmpty();
  }
}
