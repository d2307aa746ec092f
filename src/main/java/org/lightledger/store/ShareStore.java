package org.lightledger.store;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.sql.SQLException;
import java.time.Instant;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.share.Share;

/** The links by which clients see a shortlist. */
public final class ShareStore {
  private static final String SELECT =
      "SELECT id, shortlist_id, token, exact_positions, created_ms, expires_ms, revoked_ms, seen_ms"
          + " FROM shares ";

  private final LedgerSession session;

  ShareStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * Adds a share.
   *
   * @param shortlistId the shortlist to show
   * @param token an unguessable secret: 22 or more of A-Z a-z 0-9 - _, made of 128 or more random
   *     bits
   * @param exactPositions whether the client may see where exactly the spots are
   * @param created the present time
   * @param expires when it ends by itself, or null for never
   * @return the ledger's number of the share
   * @throws LedgerException when there is no such shortlist, or the token is too short or in use
   */
  public long create(
      long shortlistId,
      String token,
      boolean exactPositions,
      Instant created,
      @Nullable Instant expires) {
    session.changing(LedgerSession.Content.SHARES);
    return session
        .call(
            "INSERT INTO shares (shortlist_id, token, token_sha256, exact_positions, created_ms,"
                + " expires_ms) VALUES (?, ?, ?, ?, ?, ?) RETURNING id")
        .integer(shortlistId)
        .text(token)
        .text(sha256(token))
        .flag(exactPositions)
        .millis(created)
        .millis(expires)
        .number();
  }

  /**
   * Finds a share by its secret, also one that is no longer open: ask {@link Share#stateAt}.
   *
   * @param token the secret from the link
   * @return the share, or nothing when there is none
   */
  public Optional<Share> find(String token) {
    return session
        .call(SELECT + "WHERE token_sha256 = ?")
        .text(sha256(token))
        .first(ShareStore::read);
  }

  /**
   * The shares of a shortlist.
   *
   * @param shortlistId the shortlist
   * @return the newest first
   */
  public List<Share> ofShortlist(long shortlistId) {
    return session
        .call(SELECT + "WHERE shortlist_id = ? ORDER BY created_ms DESC, id DESC")
        .integer(shortlistId)
        .list(ShareStore::read);
  }

  /**
   * Ends a share. One that was ended before keeps its time.
   *
   * @param id the ledger's number of the share
   * @param now the present time
   * @throws LedgerException when there is no such share
   */
  public void revoke(long id, Instant now) {
    session.changing(LedgerSession.Content.SHARES);
    requireOne(
        id,
        session
            .call("UPDATE shares SET revoked_ms = coalesce(revoked_ms, ?) WHERE id = ?")
            .millis(now)
            .integer(id)
            .run());
  }

  /**
   * Notes that a client opened a share.
   *
   * @param id the ledger's number of the share
   * @param now the present time
   * @throws LedgerException when there is no such share
   */
  public void seen(long id, Instant now) {
    session.changing(LedgerSession.Content.SHARES);
    requireOne(
        id,
        session.call("UPDATE shares SET seen_ms = ? WHERE id = ?").millis(now).integer(id).run());
  }

  private static Share read(Row row) throws SQLException {
    return new Share(
        row.integer(),
        row.integer(),
        row.text(),
        row.flag(),
        row.instant(),
        row.instantOrNull(),
        row.instantOrNull(),
        row.instantOrNull());
  }

  private static String sha256(String token) {
    try {
      byte[] bytes = token.getBytes(StandardCharsets.UTF_8);
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java runtime has SHA-256", e);
    }
  }

  private static void requireOne(long id, int changed) {
    if (changed == 0) {
      throw LedgerException.notFound("share", id);
    }
  }
}
