package org.lightledger.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.lightledger.exchange.SpotFile;
import org.lightledger.exchange.UnreadableSpotsException;
import org.sqlite.ProgressHandler;
import org.sqlite.SQLiteConnection;
import org.sqlite.SQLiteLimits;

/**
 * Opens a GeoPackage that somebody else made, and trusts nothing in it. What is read is a copy, so
 * that no lock, log or journal turns up beside the file; the schema is not trusted, so that nothing
 * in it calls functions with effects; nothing can be attached, written or run for long; and only
 * true tables that the table of contents names are read, never views or virtual tables.
 */
public final class ForeignPackage {
  /** The largest file, bytes; own choice. It is copied before it is read. */
  public static final long LARGEST_BYTES = 256L << 20;

  /** The largest text or blob, bytes; own choice, far beyond what a point and its words need. */
  private static final int LARGEST_VALUE_BYTES = 4 << 20;

  /** Steps of SQLite's machine between two looks at the count. */
  private static final int STEPS_BETWEEN = 100_000;

  /** The most looks: 200 million steps, some seconds; own choice. */
  private static final int MOST_LOOKS = 2000;

  private ForeignPackage() {}

  /**
   * Reads the points of a file.
   *
   * @param file a GeoPackage
   * @return what it says
   * @throws UnreadableSpotsException when nothing of it can be taken over
   * @throws IOException when it can not be read or copied
   */
  public static SpotFile read(Path file) throws IOException, UnreadableSpotsException {
    if (Files.size(file) > LARGEST_BYTES) {
      throw new UnreadableSpotsException(
          "The file has "
              + (Files.size(file) >> 20)
              + " MB, expected at most "
              + (LARGEST_BYTES >> 20)
              + " MB; export the points alone into one of their own.");
    }
    Path folder = Files.createTempDirectory("spots");
    try {
      Path copy = folder.resolve("copy.gpkg");
      copy(file, copy);
      return readCopy(copy);
    } finally {
      delete(folder);
    }
  }

  /** The log and the journal belong to the file: without them its last changes would be missing. */
  private static void copy(Path file, Path copy) throws IOException {
    Files.copy(file, copy);
    for (String beside : List.of("-wal", "-journal")) {
      Path log = file.resolveSibling(file.getFileName() + beside);
      if (Files.isRegularFile(log) && Files.size(log) <= LARGEST_BYTES) {
        Files.copy(log, copy.resolveSibling(copy.getFileName() + beside));
      }
    }
  }

  private static SpotFile readCopy(Path copy) throws UnreadableSpotsException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + copy.toUri())) {
      guard((SQLiteConnection) connection);
      return new PackageLayers(connection).read();
    } catch (SQLException e) {
      throw new UnreadableSpotsException(
          "Expected a GeoPackage, found a file that SQLite refuses or that takes too long ("
              + String.valueOf(e.getMessage()).lines().findFirst().orElse("")
              + "); nothing of it was taken over. Export it again.",
          e);
    }
  }

  private static void guard(SQLiteConnection connection) throws SQLException {
    connection.setLimit(SQLiteLimits.SQLITE_LIMIT_LENGTH, LARGEST_VALUE_BYTES);
    connection.setLimit(SQLiteLimits.SQLITE_LIMIT_ATTACHED, 0);
    try (Statement statement = connection.createStatement()) {
      for (String pragma :
          List.of(
              "trusted_schema = OFF", "query_only = ON", "cell_size_check = ON", "mmap_size = 0")) {
        statement.execute("PRAGMA " + pragma);
      }
    }
    ProgressHandler.setHandler(
        connection,
        STEPS_BETWEEN,
        new ProgressHandler() {
          private int looks;

          @Override
          protected int progress() {
            return ++looks > MOST_LOOKS ? 1 : 0;
          }
        });
  }

  private static void delete(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path path : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(path);
      }
    }
  }

  /** A name in an SQL statement. */
  static String quoted(String name) {
    return '"' + name.replace("\"", "\"\"") + '"';
  }

  static String lower(String name) {
    return name.toLowerCase(Locale.ROOT);
  }
}
