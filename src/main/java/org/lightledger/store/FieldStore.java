package org.lightledger.store;

import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.lightledger.field.FieldEntry;

/** What came in from the field, each entry once. */
public final class FieldStore {
  private static final String ENTRY =
      "SELECT id, uuid, kind, made_ms, received_ms, outcome, said, told, shot_id"
          + " FROM field_entries";

  private final LedgerSession session;

  FieldStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * An entry that came in before.
   *
   * @param uuid the name that the phone gave it
   * @return the entry, or nothing when it is new
   */
  public Optional<FieldEntry> find(UUID uuid) {
    return session.call(ENTRY + " WHERE uuid = ?").text(uuid.toString()).first(FieldStore::read);
  }

  /**
   * All entries.
   *
   * @return in the order in which they came in
   */
  public List<FieldEntry> all() {
    return session.call(ENTRY + " ORDER BY id").list(FieldStore::read);
  }

  /**
   * Keeps an entry.
   *
   * @param entry an entry whose name is new
   * @throws LedgerException when the name is known
   */
  public void keep(FieldEntry entry) {
    session.changing(LedgerSession.Content.FIELD_ENTRIES);
    session
        .call(
            "INSERT INTO field_entries (uuid, kind, made_ms, received_ms, outcome, said, told,"
                + " shot_id) VALUES (?, ?, ?, ?, ?, ?, ?, ?)")
        .text(entry.uuid().toString())
        .name(entry.kind())
        .millis(entry.madeAt())
        .millis(entry.receivedAt())
        .name(entry.outcome())
        .text(entry.said())
        .text(entry.told())
        .integer(entry.shotId())
        .run();
  }

  private static FieldEntry read(Row row) throws SQLException {
    long id = row.integer();
    try {
      return new FieldEntry(
          UUID.fromString(row.text()),
          FieldEntry.Kind.valueOf(row.text()),
          row.instant(),
          row.instant(),
          FieldEntry.Outcome.valueOf(row.text()),
          row.text(),
          row.text(),
          row.integerOrNull());
    } catch (IllegalArgumentException e) {
      throw LedgerException.foreign("field entry " + id, e);
    }
  }
}
