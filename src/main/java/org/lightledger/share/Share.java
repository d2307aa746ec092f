package org.lightledger.share;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A link that lets a client see a shortlist.
 *
 * @param id the ledger's number of the share
 * @param shortlistId what it shows
 * @param token the secret part of the link
 * @param exactPositions whether the client may see where the spots lie
 * @param createdAt when it was made
 * @param expiresAt when it stops working, or null for never
 * @param revokedAt when the owner took it back, or null while it stands
 * @param seenAt when it was last opened, or null when it never was
 */
public record Share(
    long id,
    long shortlistId,
    String token,
    boolean exactPositions,
    Instant createdAt,
    @Nullable Instant expiresAt,
    @Nullable Instant revokedAt,
    @Nullable Instant seenAt) {

  /** Whether a link works. */
  public enum State {
    /** It shows the shortlist. */
    OPEN,
    /** Its time is over. */
    EXPIRED,
    /** The owner took it back. */
    REVOKED
  }

  /**
   * Whether the link works.
   *
   * @param now the present
   * @return its state
   */
  public State stateAt(Instant now) {
    if (revokedAt != null && !now.isBefore(revokedAt)) {
      return State.REVOKED;
    }
    return expiresAt != null && !now.isBefore(expiresAt) ? State.EXPIRED : State.OPEN;
  }

  /** Tells everything but the secret, so that it ends in no log. */
  @Override
  public String toString() {
    return "Share[id=" + id + ", shortlistId=" + shortlistId + "]";
  }
}
