package org.lightledger.store;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;

/** Where the owner keeps elevation. */
public final class ElevationStore {
  private final LedgerSession session;

  ElevationStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * An elevation file, or a folder of them.
   *
   * @param id the ledger's number of it
   * @param path absolute path
   */
  public record ElevationFile(long id, Path path) {}

  /**
   * Everything that the ledger knows of.
   *
   * @return by number
   */
  public List<ElevationFile> all() {
    return session
        .call("SELECT id, path FROM elevation_files ORDER BY id")
        .list(row -> new ElevationFile(row.integer(), Path.of(row.text())));
  }

  /**
   * Adds a file.
   *
   * @param path the file, which stays where it is
   * @param now the present
   * @return false when it was known already
   */
  public boolean add(Path path, Instant now) {
    session.changing(LedgerSession.Content.ELEVATION_FILES);
    return session
            .call("INSERT OR IGNORE INTO elevation_files (path, added_ms) VALUES (?, ?)")
            .text(path.toAbsolutePath().normalize().toString())
            .millis(now)
            .run()
        == 1;
  }

  /**
   * Forgets a file; the file itself stays.
   *
   * @param id the ledger's number of it
   * @throws LedgerException when there is none
   */
  public void remove(long id) {
    session.changing(LedgerSession.Content.ELEVATION_FILES);
    if (session.call("DELETE FROM elevation_files WHERE id = ?").integer(id).run() == 0) {
      throw LedgerException.notFound("elevation file", id);
    }
  }
}
