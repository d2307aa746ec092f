package org.lightledger.store;

import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.OffsetDateTime;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;
import org.lightledger.shortlist.Shortlist;

/** The shortlists with their entries, in the owner's order. */
public final class ShortlistStore {
  private static final String ENTRY =
      "SELECT id, spot_id, light_from, light_until, light, facing_deg, cover_shot_id, words"
          + " FROM shortlist_entries ";

  private final LedgerSession session;

  ShortlistStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * Adds a shortlist without entries.
   *
   * @param title the owner's title, not blank
   * @param message words to the client, "" for none
   * @return the ledger's number of the shortlist
   * @throws LedgerException when the title is blank
   */
  public long create(String title, String message) {
    session.changing(LedgerSession.Content.SHORTLISTS);
    return session
        .call("INSERT INTO shortlists (title, message) VALUES (?, ?) RETURNING id")
        .text(title)
        .text(message)
        .number();
  }

  /**
   * Replaces title and message.
   *
   * @param id the ledger's number of the shortlist
   * @param title the owner's title, not blank
   * @param message words to the client, "" for none
   * @throws LedgerException when there is no such shortlist, or the title is blank
   */
  public void update(long id, String title, String message) {
    session.changing(LedgerSession.Content.SHORTLISTS);
    requireOne(
        "shortlist",
        id,
        session
            .call("UPDATE shortlists SET (title, message) = (?, ?) WHERE id = ?")
            .text(title)
            .text(message)
            .integer(id)
            .run());
  }

  /**
   * Deletes a shortlist with its entries and shares.
   *
   * @param id the ledger's number of the shortlist
   * @throws LedgerException when there is no such shortlist
   */
  public void delete(long id) {
    session.changing(LedgerSession.Content.SHORTLISTS);
    session.changing(LedgerSession.Content.SHORTLIST_ENTRIES);
    session.changing(LedgerSession.Content.SHARES);
    requireOne(
        "shortlist", id, session.call("DELETE FROM shortlists WHERE id = ?").integer(id).run());
  }

  /**
   * Finds a shortlist.
   *
   * @param id the ledger's number of the shortlist
   * @return the shortlist with its entries, or nothing when there is none
   */
  public Optional<Shortlist> find(long id) {
    return session
        .call("SELECT id, title, message FROM shortlists WHERE id = ?")
        .integer(id)
        .first(ShortlistStore::readShortlist)
        .map(this::withEntries);
  }

  /**
   * Every shortlist.
   *
   * @return the newest first
   */
  public List<Shortlist> all() {
    return session
        .call("SELECT id, title, message FROM shortlists ORDER BY id DESC")
        .list(ShortlistStore::readShortlist)
        .stream()
        .map(this::withEntries)
        .toList();
  }

  /**
   * The entries of a shortlist with their numbers.
   *
   * @param id the ledger's number of the shortlist
   * @return in the owner's order
   */
  public List<ShortlistEntry> entries(long id) {
    return session
        .call(ENTRY + "WHERE shortlist_id = ? ORDER BY place")
        .integer(id)
        .list(ShortlistStore::readEntry);
  }

  /**
   * Adds an entry at the end.
   *
   * @param id the ledger's number of the shortlist
   * @param entry what is proposed
   * @return the ledger's number of the entry
   * @throws LedgerException when shortlist, spot or cover shot are not in the ledger
   */
  public long add(long id, Shortlist.Entry entry) {
    session.changing(LedgerSession.Content.SHORTLIST_ENTRIES);
    Shortlist.Moment moment = entry.moment();
    return session
        .call(
            "INSERT INTO shortlist_entries (shortlist_id, place, spot_id, light_from, light_until,"
                + " light, facing_deg, cover_shot_id, words) VALUES (?1,"
                + " (SELECT coalesce(max(place) + 1, 0) FROM shortlist_entries"
                + " WHERE shortlist_id = ?1), ?2, ?3, ?4, ?5, ?6, ?7, ?8) RETURNING id")
        .integer(id)
        .integer(entry.spotId())
        .textOf(moment == null ? null : moment.from())
        .textOf(moment == null ? null : moment.to())
        .name(moment == null ? null : moment.light())
        .real("facing in degrees", moment == null ? null : moment.facing().trueDeg())
        .integer(entry.coverShotId())
        .text(entry.words())
        .number();
  }

  /**
   * Takes an entry off its shortlist.
   *
   * @param entryId the ledger's number of the entry
   * @throws LedgerException when there is no such entry
   */
  public void remove(long entryId) {
    session.changing(LedgerSession.Content.SHORTLIST_ENTRIES);
    requireOne(
        "shortlist entry",
        entryId,
        session.call("DELETE FROM shortlist_entries WHERE id = ?").integer(entryId).run());
  }

  /**
   * Puts the entries of a shortlist into another order.
   *
   * @param id the ledger's number of the shortlist
   * @param entryIds the numbers of all its entries, each once
   * @throws IllegalArgumentException when an entry is missing, named twice, or of another list
   */
  public void reorder(long id, List<Long> entryIds) {
    List<Long> present = entries(id).stream().map(ShortlistEntry::id).toList();
    if (entryIds.size() != present.size()
        || !new HashSet<>(entryIds).equals(new HashSet<>(present))) {
      throw new IllegalArgumentException(
          "expected the entries "
              + present
              + " of shortlist "
              + id
              + " in another order, found "
              + entryIds
              + "; the list may have changed meanwhile, so look at it again");
    }
    session.changing(LedgerSession.Content.SHORTLIST_ENTRIES);
    for (int place = 0; place < entryIds.size(); place++) {
      session
          .call("UPDATE shortlist_entries SET place = ? WHERE id = ?")
          .integer(place)
          .integer(entryIds.get(place).longValue())
          .run();
    }
  }

  /**
   * Replaces what the client reads and sees about an entry.
   *
   * @param entryId the ledger's number of the entry
   * @param words what the client reads about the spot, "" for nothing
   * @param coverShotId the shot that stands for it, or null for none
   * @throws LedgerException when there is no such entry or shot
   */
  public void describe(long entryId, String words, @Nullable Long coverShotId) {
    session.changing(LedgerSession.Content.SHORTLIST_ENTRIES);
    requireOne(
        "shortlist entry",
        entryId,
        session
            .call("UPDATE shortlist_entries SET (words, cover_shot_id) = (?, ?) WHERE id = ?")
            .text(words)
            .integer(coverShotId)
            .integer(entryId)
            .run());
  }

  /**
   * The shortlists that propose a spot.
   *
   * @param spotId the spot
   * @return their titles, by number
   */
  public List<String> titlesWith(long spotId) {
    return session
        .call(
            "SELECT title FROM shortlists WHERE id IN"
                + " (SELECT shortlist_id FROM shortlist_entries WHERE spot_id = ?) ORDER BY id")
        .integer(spotId)
        .list(Row::text);
  }

  private Shortlist withEntries(Shortlist shortlist) {
    return new Shortlist(
        shortlist.id(),
        shortlist.title(),
        shortlist.message(),
        entries(shortlist.id()).stream().map(ShortlistEntry::entry).toList());
  }

  private static Shortlist readShortlist(Row row) throws SQLException {
    return new Shortlist(row.integer(), row.text(), row.text(), List.of());
  }

  private static ShortlistEntry readEntry(Row row) throws SQLException {
    long id = row.integer();
    try {
      return new ShortlistEntry(
          id, new Shortlist.Entry(row.integer(), readMoment(row), row.integerOrNull(), row.text()));
    } catch (DateTimeException e) {
      throw LedgerException.foreign("shortlist entry " + id, e);
    }
  }

  private static Shortlist.@Nullable Moment readMoment(Row row) throws SQLException {
    String from = row.textOrNull();
    String until = row.textOrNull();
    String light = row.textOrNull();
    double facingDeg = row.real();
    return from == null || until == null || light == null
        ? null
        : new Shortlist.Moment(
            OffsetDateTime.parse(from),
            OffsetDateTime.parse(until),
            LightClass.valueOf(light),
            new Bearing(facingDeg));
  }

  private static void requireOne(String what, long id, int changed) {
    if (changed == 0) {
      throw LedgerException.notFound(what, id);
    }
  }
}
