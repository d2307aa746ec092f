package org.lightledger.share;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * What lets a client see a shortlist or a session, by a link or by a file.
 *
 * @param id the ledger's number of the share
 * @param subject what it shows
 * @param terms what of it, and until when
 * @param token the secret part of the link
 * @param keys the share's own keys, by which a returned file is known
 * @param createdAt when it was made
 * @param revokedAt when the owner took it back, or null while it stands
 * @param seen how often and when the client opened it
 * @param repliedAt when something came back last, or null when nothing has
 * @param readAt when the owner last read what came back, or null
 */
public record Share(
    long id,
    ShareSubject subject,
    ShareTerms terms,
    String token,
    ShareKeys keys,
    Instant createdAt,
    @Nullable Instant revokedAt,
    Seen seen,
    @Nullable Instant repliedAt,
    @Nullable Instant readAt) {

  /** Whether a share works. */
  public enum State {
    /** It shows what it is for. */
    OPEN,
    /** Its time is over. */
    EXPIRED,
    /** The owner took it back. */
    REVOKED
  }

  /**
   * How often and when a client opened a link.
   *
   * @param count how often, 0 or more
   * @param first when first, or null when never
   * @param last when last, or null when never
   */
  public record Seen(int count, @Nullable Instant first, @Nullable Instant last) {
    /** Not opened yet. */
    public static final Seen NEVER = new Seen(0, null, null);
  }

  /**
   * Whether the share works.
   *
   * @param now the present
   * @return its state
   */
  public State stateAt(Instant now) {
    if (revokedAt != null && !now.isBefore(revokedAt)) {
      return State.REVOKED;
    }
    Instant expires = terms.expiresAt();
    return expires != null && !now.isBefore(expires) ? State.EXPIRED : State.OPEN;
  }

  /**
   * Whether something came back that the owner has not read.
   *
   * @return true until the owner says that it was read
   */
  public boolean hasNews() {
    return repliedAt != null && (readAt == null || repliedAt.isAfter(readAt));
  }

  /** Tells everything but the secrets, so that they end in no log. */
  @Override
  public String toString() {
    return "Share[id=" + id + ", subject=" + subject + "]";
  }
}
