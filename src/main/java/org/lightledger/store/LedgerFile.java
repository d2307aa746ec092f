package org.lightledger.store;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteConnection;
import org.sqlite.SQLiteDataSource;

/** The file of a ledger: how it is opened and brought to the current schema. */
final class LedgerFile {
  /** The newest migration in schema/. */
  static final int SCHEMA_VERSION = 14;

  static final String NAME = "ledger.gpkg";

  /** How long a writer waits for another program's transaction. */
  static final Duration BUSY_TIMEOUT = Duration.ofSeconds(5);

  /** Bytes to which the write-ahead log is cut back once its content is in the ledger. */
  private static final int LOG_KEEP_BYTES = 64 << 20;

  /** Kibibytes of pages each connection keeps in memory; SQLite counts them as negative. */
  private static final int CACHE_KIB = 16 << 10;

  /** The same for the one that writes: an import comes back to the same pages batch by batch. */
  private static final int WRITER_CACHE_KIB = 64 << 10;

  /**
   * So many pages, 32 MB, may stand in the write-ahead log before they are brought into the ledger;
   * a page that several batches change is then written there once. SQLite's own is 1000.
   */
  private static final int LOG_PAGES = 8000;

  private static final int NO_LEDGER_YET = 0;

  private final Path path;

  private LedgerFile(Path path) {
    this.path = path;
  }

  /** The ledger of a folder, whatever its state. */
  static LedgerFile in(Path folder) {
    return new LedgerFile(folder.toAbsolutePath().resolve(NAME));
  }

  /** A ledger's file under another name, before it becomes the ledger of its folder. */
  static LedgerFile at(Path path) {
    return new LedgerFile(path.toAbsolutePath());
  }

  /** Makes or brings up to date the ledger of a folder. */
  static LedgerFile open(Path folder) {
    LedgerFile file = in(folder);
    file.bringUpToDate();
    return file;
  }

  /** Brings a file that nobody else knows to the current schema; refuses what is newer. */
  void bringUpToDateAlone() {
    if (version() != SCHEMA_VERSION) {
      try {
        runMigrations();
      } catch (FlywayException e) {
        throw notMigrated(e);
      }
    }
  }

  private void bringUpToDate() {
    if (!exists() || version() != SCHEMA_VERSION) {
      migrate();
    }
  }

  Path path() {
    return path;
  }

  boolean exists() {
    return Files.exists(path);
  }

  Connection connectForReading() {
    return connect(false);
  }

  Connection connectForWriting() {
    return connect(true);
  }

  private Connection connect(boolean writing) {
    try {
      Connection connection = dataSource(writing).getConnection();
      try (Statement pragma = connection.createStatement()) {
        pragma.execute(
            writing ? "PRAGMA wal_autocheckpoint = " + LOG_PAGES : "PRAGMA query_only = ON");
      } catch (SQLException e) {
        connection.close();
        throw e;
      }
      return connection;
    } catch (SQLException e) {
      throw LedgerException.of(e);
    }
  }

  /** Rewrites the file from its live rows, and empties the write-ahead log into it. */
  void scrub() {
    try (Connection connection = connect(true);
        Statement statement = connection.createStatement()) {
      statement.execute("PRAGMA secure_delete = ON");
      statement.execute("VACUUM");
      if (number(statement, "PRAGMA wal_checkpoint(TRUNCATE)") != 0) {
        throw new LedgerException(
            LedgerException.Reason.BUSY,
            "what was deleted is out of the ledger, but another program still reads from before and"
                + " keeps a trace in the write-ahead log; close that program and do this again");
      }
    } catch (SQLException e) {
      throw LedgerException.of(e);
    }
  }

  private SQLiteDataSource dataSource(boolean writing) {
    SQLiteConfig config = new SQLiteConfig();
    config.setBusyTimeout((int) BUSY_TIMEOUT.toMillis());
    config.enforceForeignKeys(true);
    // Every INSERT that needs its number says RETURNING; the driver need not ask a second time.
    config.setGetGeneratedKeys(false);
    if (writing) {
      config.setJournalMode(SQLiteConfig.JournalMode.WAL);
      config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
      config.setJournalSizeLimit(LOG_KEEP_BYTES);
    }
    config.setCacheSize(writing ? -WRITER_CACHE_KIB : -CACHE_KIB);
    SQLiteDataSource source = new SpatialDataSource(config);
    // As a URI, because a plain name ends at its first question mark.
    source.setUrl("jdbc:sqlite:" + path.toUri());
    return source;
  }

  /** Its connections know the functions that the triggers and the migrations call. */
  private static final class SpatialDataSource extends SQLiteDataSource {
    SpatialDataSource(SQLiteConfig config) {
      super(config);
    }

    @Override
    public SQLiteConnection getConnection(@Nullable String username, @Nullable String password)
        throws SQLException {
      SQLiteConnection connection = super.getConnection(username, password);
      try {
        SpatialFunctions.register(connection);
        return connection;
      } catch (SQLException e) {
        connection.close();
        throw e;
      }
    }
  }

  /**
   * The recorded version of the schema, read without starting the migration tool, which costs
   * hundreds of milliseconds.
   */
  private int version() {
    try (Connection connection = dataSource(false).getConnection();
        Statement statement = connection.createStatement()) {
      if (number(statement, "SELECT count(*) FROM sqlite_master") == 0) {
        return NO_LEDGER_YET;
      }
      if (number(
              statement, "SELECT count(*) FROM sqlite_master WHERE name = 'flyway_schema_history'")
          == 0) {
        throw new LedgerException(
            LedgerException.Reason.NOT_A_LEDGER,
            "expected a ledger, found a database of something else in "
                + NAME
                + "; choose another folder or move that file away");
      }
      int version =
          number(
              statement,
              "SELECT coalesce(max(CAST(version AS INTEGER)), 0) FROM flyway_schema_history"
                  + " WHERE success = 1");
      if (version > SCHEMA_VERSION) {
        throw new LedgerException(
            LedgerException.Reason.NEWER,
            "expected a ledger of version "
                + SCHEMA_VERSION
                + " or older, found version "
                + version
                + "; open it with the newer Lightledger that made it");
      }
      return version;
    } catch (SQLException e) {
      throw LedgerException.of(e);
    }
  }

  private static int number(Statement statement, String sql) throws SQLException {
    try (ResultSet row = statement.executeQuery(sql)) {
      return row.getInt(1);
    }
  }

  /**
   * One at a time, across threads and programs. The lock is a file of its own, which stays: to lock
   * the ledger's file here would undo the locks that SQLite holds on it.
   */
  private void migrate() {
    synchronized (LedgerFile.class) {
      try {
        Files.createDirectories(path.getParent());
        try (FileChannel channel =
                FileChannel.open(
                    path.resolveSibling(NAME + ".lock"),
                    StandardOpenOption.CREATE,
                    StandardOpenOption.WRITE);
            FileLock lock = channel.lock()) {
          if (lock.isValid() && version() != SCHEMA_VERSION) {
            runMigrations();
          }
        }
      } catch (IOException e) {
        throw new LedgerException(
            LedgerException.Reason.STORAGE,
            "the ledger's folder could not be made or written; check that its parent exists and"
                + " belongs to you",
            e);
      } catch (FlywayException e) {
        throw notMigrated(e);
      }
    }
  }

  private void runMigrations() {
    Flyway.configure().dataSource(dataSource(true)).locations("classpath:schema").load().migrate();
  }

  private static LedgerException notMigrated(FlywayException e) {
    return new LedgerException(
        LedgerException.Reason.OTHER,
        "the ledger could not be brought to version "
            + SCHEMA_VERSION
            + "; nothing in it was changed by the step that failed",
        e);
  }
}
