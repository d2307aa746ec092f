package org.lightledger.store;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A link by which a client sees a shortlist. Its times are kept to the millisecond.
 *
 * @param id the ledger's number of the share
 * @param shortlistId the shortlist it shows
 * @param token the secret in the link
 * @param exactPositions whether the client may see where exactly the spots are
 * @param created when it was made
 * @param expires when it ends by itself, or null for never
 * @param revoked when the owner ended it, or null
 * @param seen when a client last opened it, or null
 */
public record Share(
    long id,
    long shortlistId,
    String token,
    boolean exactPositions,
    Instant created,
    @Nullable Instant expires,
    @Nullable Instant revoked,
    @Nullable Instant seen) {

  /**
   * Whether the link works.
   *
   * @param now the present time
   * @return true unless it was revoked or has expired
   */
  public boolean open(Instant now) {
    return revoked == null && (expires == null || now.isBefore(expires));
  }

  /** Tells everything but the secret, so that it ends in no log. */
  @Override
  public String toString() {
    return "Share[id=" + id + ", shortlistId=" + shortlistId + "]";
  }
}
