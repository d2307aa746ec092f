package org.lightledger.store;

import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.lightledger.field.TickRule;
import org.lightledger.session.PackItem;

/** What the studio packs: for every session, and for each. */
public final class PackStore {
  private final LedgerSession session;

  PackStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * What is packed for every session.
   *
   * @return in the owner's order, nothing ticked
   */
  public List<PackItem> gear() {
    return session
        .call("SELECT id, words, NULL FROM gear ORDER BY place, id")
        .list(PackStore::read);
  }

  /**
   * Adds a thing that is packed for every session to come.
   *
   * @param words what it is
   * @return the ledger's number of it
   */
  public long addGear(String words) {
    session.changing(LedgerSession.Content.GEAR);
    return session
        .call(
            "INSERT INTO gear (place, words) VALUES"
                + " ((SELECT coalesce(max(place) + 1, 0) FROM gear), ?) RETURNING id")
        .text(words)
        .number();
  }

  /**
   * Takes a thing off what is packed for every session; sessions that have it keep it.
   *
   * @param id the ledger's number of it
   * @throws LedgerException when there is none
   */
  public void removeGear(long id) {
    session.changing(LedgerSession.Content.GEAR);
    requireOne(
        "piece of gear", id, session.call("DELETE FROM gear WHERE id = ?").integer(id).run());
  }

  /**
   * What is packed for a session.
   *
   * @param sessionId the ledger's number of the session
   * @return in the owner's order
   */
  public List<PackItem> items(long sessionId) {
    return session
        .call(
            "SELECT id, words, done_ms FROM session_items WHERE session_id = ? ORDER BY place, id")
        .integer(sessionId)
        .list(PackStore::read);
  }

  /**
   * Gives a session what is packed for every session, as far as it does not have it yet.
   *
   * @param sessionId the ledger's number of the session
   * @throws LedgerException when there is no such session
   */
  public void packGear(long sessionId) {
    List<String> present = items(sessionId).stream().map(PackItem::words).toList();
    for (PackItem piece : gear()) {
      if (!present.contains(piece.words())) {
        add(sessionId, piece.words());
      }
    }
  }

  /**
   * Adds a thing to pack for one session.
   *
   * @param sessionId the ledger's number of the session
   * @param words what it is
   * @return the ledger's number of it
   * @throws LedgerException when there is no such session
   */
  public long add(long sessionId, String words) {
    session.changing(LedgerSession.Content.SESSION_ITEMS);
    return session
        .call(
            "INSERT INTO session_items (session_id, place, words) VALUES (?1,"
                + " (SELECT coalesce(max(place) + 1, 0) FROM session_items WHERE session_id = ?1),"
                + " ?2) RETURNING id")
        .integer(sessionId)
        .text(words)
        .number();
  }

  /**
   * Ticks a thing, or takes the tick back.
   *
   * @param sessionId the ledger's number of the session
   * @param itemId the ledger's number of the thing
   * @param done whether it is ticked
   * @param at when the owner said so
   * @throws LedgerException when the session has no such thing
   */
  public void tick(long sessionId, long itemId, boolean done, Instant at) {
    session.changing(LedgerSession.Content.SESSION_ITEMS);
    requireOne(
        "thing to pack",
        itemId,
        session
            .call(
                "UPDATE session_items SET (done_ms, changed_ms) = (?, ?)"
                    + " WHERE id = ? AND session_id = ?")
            .millis(done ? at : null)
            .millis(at)
            .integer(itemId)
            .integer(sessionId)
            .run());
  }

  /**
   * Whether a thing is ticked, and since when.
   *
   * @param sessionId the ledger's number of the session
   * @param itemId the ledger's number of the thing
   * @return its state, or nothing when the session has no such thing
   */
  public Optional<TickRule.State> state(long sessionId, long itemId) {
    return session
        .call(
            "SELECT done_ms NOT NULL, coalesce(changed_ms, done_ms) FROM session_items"
                + " WHERE id = ? AND session_id = ?")
        .integer(itemId)
        .integer(sessionId)
        .first(row -> new TickRule.State(row.flag(), row.instantOrNull()));
  }

  /**
   * Takes a thing off a session.
   *
   * @param sessionId the ledger's number of the session
   * @param itemId the ledger's number of the thing
   * @throws LedgerException when the session has no such thing
   */
  public void remove(long sessionId, long itemId) {
    session.changing(LedgerSession.Content.SESSION_ITEMS);
    requireOne(
        "thing to pack",
        itemId,
        session
            .call("DELETE FROM session_items WHERE id = ? AND session_id = ?")
            .integer(itemId)
            .integer(sessionId)
            .run());
  }

  private static PackItem read(Row row) throws SQLException {
    long id = row.integer();
    try {
      return new PackItem(id, row.text(), row.instantOrNull());
    } catch (IllegalArgumentException e) {
      throw LedgerException.foreign("thing to pack " + id, e);
    }
  }

  private static void requireOne(String what, long id, int changed) {
    if (changed == 0) {
      throw LedgerException.notFound(what, id);
    }
  }
}
