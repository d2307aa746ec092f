package org.lightledger.store;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.sql.SQLException;
import java.time.Instant;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.lightledger.share.Share;
import org.lightledger.share.ShareKeys;
import org.lightledger.share.ShareSubject;
import org.lightledger.share.ShareTerms;

/** What lets clients see a shortlist or a session. */
public final class ShareStore {
  private static final String SELECT =
      "SELECT id, shortlist_id, session_id, as_file, client_id, message, exact_positions,"
          + " shows_plan, shows_questions, expires_ms, token, secret, key_id, created_ms,"
          + " revoked_ms, seen_count, first_seen_ms, seen_ms, replied_ms, read_ms FROM shares ";

  private final LedgerSession session;

  ShareStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * Adds a share.
   *
   * @param subject what it shows
   * @param terms what of it, and until when
   * @param token an unguessable secret: 22 or more of A-Z a-z 0-9 - _, made of 128 or more random
   *     bits
   * @param keys the share's own keys
   * @param created the present time
   * @return the ledger's number of the share
   * @throws LedgerException when there is no such shortlist, session or client, or the token is too
   *     short or in use
   */
  public long create(
      ShareSubject subject, ShareTerms terms, String token, ShareKeys keys, Instant created) {
    session.changing(LedgerSession.Content.SHARES);
    return session
        .call(
            "INSERT INTO shares (shortlist_id, session_id, as_file, client_id, message,"
                + " exact_positions, shows_plan, shows_questions, expires_ms, token, token_sha256,"
                + " secret, key_id, created_ms) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
                + " RETURNING id")
        .integer(subject.isSession() ? null : Long.valueOf(subject.id()))
        .integer(subject.isSession() ? Long.valueOf(subject.id()) : null)
        .flag(terms.asFile())
        .integer(terms.clientId())
        .text(terms.message())
        .flag(terms.exactPositions())
        .flag(terms.plan())
        .flag(terms.questions())
        .millis(terms.expiresAt())
        .text(token)
        .text(sha256(token))
        .text(keys.secret())
        .text(keys.keyId())
        .millis(created)
        .number();
  }

  /**
   * Finds a share by the secret of its link, also one that is no longer open: ask {@link
   * Share#stateAt}. A file's share has no link.
   *
   * @param token the secret from the link
   * @return the share, or nothing when there is none
   */
  public Optional<Share> find(String token) {
    return session
        .call(SELECT + "WHERE token_sha256 = ? AND as_file = 0")
        .text(sha256(token))
        .first(ShareStore::read);
  }

  /**
   * Finds a share by its number.
   *
   * @param id the ledger's number of the share
   * @return the share, or nothing when there is none
   */
  public Optional<Share> find(long id) {
    return session.call(SELECT + "WHERE id = ?").integer(id).first(ShareStore::read);
  }

  /**
   * Finds the share that a returned file names.
   *
   * @param keyId what it is named
   * @return the share, or nothing when this ledger has none
   */
  public Optional<Share> named(String keyId) {
    return session.call(SELECT + "WHERE key_id = ?").text(keyId).first(ShareStore::read);
  }

  /**
   * The shares of a shortlist or a session.
   *
   * @param subject what they show
   * @return the newest first
   */
  public List<Share> of(ShareSubject subject) {
    String column = subject.isSession() ? "session_id" : "shortlist_id";
    return session
        .call(SELECT + "WHERE " + column + " = ? ORDER BY created_ms DESC, id DESC")
        .integer(subject.id())
        .list(ShareStore::read);
  }

  /**
   * The shares through which something came back.
   *
   * @return what came last first
   */
  public List<Share> replied() {
    return session
        .call(SELECT + "WHERE replied_ms IS NOT NULL ORDER BY replied_ms DESC, id DESC")
        .list(ShareStore::read);
  }

  /**
   * Through how many shares something came back that the owner has not read.
   *
   * @return a count
   */
  public int news() {
    return (int)
        session
            .call(
                "SELECT count(*) FROM shares WHERE replied_ms IS NOT NULL"
                    + " AND (read_ms IS NULL OR read_ms < replied_ms)")
            .number();
  }

  /**
   * Ends a share. One that was ended before keeps its time.
   *
   * @param id the ledger's number of the share
   * @param now the present time
   * @throws LedgerException when there is no such share
   */
  public void revoke(long id, Instant now) {
    at(id, now, "revoked_ms = coalesce(revoked_ms, ?1)");
  }

  /**
   * Notes that a client opened a share.
   *
   * @param id the ledger's number of the share
   * @param now the present time
   * @throws LedgerException when there is no such share
   */
  public void seen(long id, Instant now) {
    at(
        id,
        now,
        "first_seen_ms = coalesce(first_seen_ms, ?1), seen_ms = ?1, seen_count = seen_count + 1");
  }

  /**
   * Notes that the owner read what came back.
   *
   * @param id the ledger's number of the share
   * @param now the present time
   * @throws LedgerException when there is no such share
   */
  public void read(long id, Instant now) {
    at(id, now, "read_ms = ?1");
  }

  private void at(long id, Instant now, String change) {
    session.changing(LedgerSession.Content.SHARES);
    requireOne(
        id,
        session
            .call("UPDATE shares SET " + change + " WHERE id = ?2")
            .millis(now)
            .integer(id)
            .run());
  }

  private static Share read(Row row) throws SQLException {
    long id = row.integer();
    Long shortlistId = row.integerOrNull();
    Long sessionId = row.integerOrNull();
    try {
      return new Share(
          id,
          shortlistId != null
              ? ShareSubject.shortlist(shortlistId)
              : ShareSubject.session(sessionId == null ? 0 : sessionId),
          new ShareTerms(
              row.flag(),
              row.integerOrNull(),
              row.text(),
              row.flag(),
              row.flag(),
              row.flag(),
              row.instantOrNull()),
          row.text(),
          new ShareKeys(row.text(), row.text()),
          row.instant(),
          row.instantOrNull(),
          new Share.Seen(row.whole(), row.instantOrNull(), row.instantOrNull()),
          row.instantOrNull(),
          row.instantOrNull());
    } catch (IllegalArgumentException e) {
      throw LedgerException.foreign("share " + id, e);
    }
  }

  private static String sha256(String token) {
    try {
      byte[] bytes = token.getBytes(StandardCharsets.UTF_8);
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java runtime has SHA-256", e);
    }
  }

  static void requireOne(long id, int changed) {
    if (changed == 0) {
      throw LedgerException.notFound("share", id);
    }
  }
}
