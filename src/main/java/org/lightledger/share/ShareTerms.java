package org.lightledger.share;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * What the owner lets a client see, and until when.
 *
 * @param asFile whether it is a file that needs no server; its link is never given out
 * @param clientId for which client it is, or null when not said; a session's share is for the
 *     session's client
 * @param message words to the client, "" for none; a shortlist has its own
 * @param exactPositions whether the client may see where all spots lie; the meeting spot's position
 *     is always shown
 * @param plan whether a session's plan is shown
 * @param questions whether the owner's questions are asked
 * @param expiresAt when it stops working, or null for never
 */
public record ShareTerms(
    boolean asFile,
    @Nullable Long clientId,
    String message,
    boolean exactPositions,
    boolean plan,
    boolean questions,
    @Nullable Instant expiresAt) {
  /** The longest message, characters: own choice. */
  public static final int LONGEST_MESSAGE = 4000;

  /** Checks the length of the message. */
  public ShareTerms {
    if (message.length() > LONGEST_MESSAGE) {
      throw new IllegalArgumentException(
          "expected a message of at most "
              + LONGEST_MESSAGE
              + " characters, found "
              + message.length());
    }
  }

  /**
   * A link to a shortlist.
   *
   * @param exactPositions whether the client may see where the spots lie
   * @param expiresAt when it stops working, or null for never
   * @return the terms
   */
  public static ShareTerms ofShortlist(boolean exactPositions, @Nullable Instant expiresAt) {
    return new ShareTerms(false, null, "", exactPositions, false, false, expiresAt);
  }
}
