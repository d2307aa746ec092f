package org.lightledger.store;

import java.nio.file.Path;
import java.sql.SQLException;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The files that imports met, read or not, by path. */
public final class FileStore {
  private static final String SELECT =
      "SELECT path, size_bytes, modified_ms, sha256, status, shot_id, problems FROM files ";

  private final LedgerSession session;

  FileStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * Whether a path is recorded with this content.
   *
   * @param path the file
   * @param sha256 fingerprint of its content
   * @return true when nothing about it is new
   */
  public boolean known(Path path, String sha256) {
    return session
            .call("SELECT EXISTS (SELECT 1 FROM files WHERE path = ? AND sha256 = ?)")
            .textOf(path)
            .text(sha256)
            .number()
        == 1;
  }

  /**
   * What is recorded about a path.
   *
   * @param path the file
   * @return its row, or nothing when no import met it
   */
  public Optional<StoredFile> find(Path path) {
    return session.call(SELECT + "WHERE path = ?").textOf(path).first(FileStore::read);
  }

  /**
   * Records a file; what was recorded about its path before is replaced.
   *
   * @param file what to record
   */
  public void record(StoredFile file) {
    session.changing(LedgerSession.Content.FILES);
    session
        .call(
            "INSERT INTO files (path, size_bytes, modified_ms, sha256, status, shot_id, problems)"
                + " VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT (path) DO UPDATE SET"
                + " (size_bytes, modified_ms, sha256, status, shot_id, problems)"
                + " = (excluded.size_bytes, excluded.modified_ms, excluded.sha256,"
                + " excluded.status, excluded.shot_id, excluded.problems)")
        .textOf(file.path())
        .integer(file.sizeBytes())
        .millis(file.modified())
        .text(file.sha256())
        .name(file.status())
        .integer(file.shotId())
        .text(Json.ofProblems(file.problems()))
        .run();
  }

  /**
   * Every file.
   *
   * @return by path
   */
  public List<StoredFile> all() {
    return session.call(SELECT + "ORDER BY path").list(FileStore::read);
  }

  /**
   * The files of one status.
   *
   * @param status the status
   * @return by path
   */
  public List<StoredFile> withStatus(FileStatus status) {
    return session
        .call(SELECT + "WHERE status = ? ORDER BY path")
        .name(status)
        .list(FileStore::read);
  }

  /**
   * How many files there are of each status.
   *
   * @return a count for every status, 0 included
   */
  public Map<FileStatus, Long> counts() {
    Map<FileStatus, Long> counts = new EnumMap<>(FileStatus.class);
    for (FileStatus status : FileStatus.values()) {
      counts.put(status, 0L);
    }
    session
        .call("SELECT status, count(*) FROM files GROUP BY status")
        .each(row -> counts.put(FileStatus.valueOf(row.text()), row.integer()));
    return counts;
  }

  /**
   * The shots of the files that differ from a file in the extension of their name alone.
   *
   * @param folder the file's folder
   * @param base the file's name up to its last dot
   * @return the ledger's numbers of the shots, ascending
   */
  public List<Long> shotsNamed(Path folder, String base) {
    String start = folder.resolve(base).toString();
    // The character after the dot is the slash, which no name has.
    return session
        .call(
            "SELECT DISTINCT shot_id FROM files WHERE path > ? AND path < ?"
                + " AND shot_id IS NOT NULL ORDER BY shot_id")
        .text(start + ".")
        .text(start + "/")
        .list(Row::integer);
  }

  /**
   * The last file before another one, in the order of paths, that holds a shot.
   *
   * @param file the other
   * @return it, or nothing when there is none
   */
  public Optional<StoredFile> shotBefore(Path file) {
    return session
        .call(SELECT + "WHERE path < ? AND shot_id IS NOT NULL ORDER BY path DESC LIMIT 1")
        .textOf(file)
        .first(FileStore::read);
  }

  List<Path> holding(long shotId) {
    return session
        .call("SELECT path FROM files WHERE shot_id = ? ORDER BY path")
        .integer(shotId)
        .list(row -> Path.of(row.text()));
  }

  private static StoredFile read(Row row) throws SQLException {
    String path = row.text();
    try {
      return new StoredFile(
          Path.of(path),
          row.integer(),
          row.instant(),
          row.textOrNull(),
          FileStatus.valueOf(row.text()),
          row.integerOrNull(),
          Json.problems(row.text()));
    } catch (IllegalArgumentException e) {
      throw LedgerException.foreign("the row of a file", e);
    }
  }
}
