package org.lightledger.store;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.lightledger.exchange.SpotReader;

/**
 * Makes a folder's ledger from a backup, which is one file: whether a log that lies beside it is
 * its own, nobody can tell from outside, so one with content is refused. The backup is copied
 * beside the ledger, checked and brought to the current schema there; the ledger that was there
 * gets a second name; then the copy takes over the ledger's name in one step. So the name stands
 * for the old ledger or the new one at every moment, and no file is ever deleted but copies that
 * were not finished.
 */
final class Restore {
  /** The smallest page of SQLite (sqlite.org/fileformat2.html, 1.3.2). */
  private static final int SMALLEST_DATABASE_BYTES = 512;

  private static final String PART = "restore-";
  private static final String PART_END = ".part";
  private static final String ASIDE = "ledger-before-";
  private static final List<String> LOGS = List.of("-wal", "-shm", "-journal");

  private static final DateTimeFormatter NAME =
      DateTimeFormatter.ofPattern("uuuuMMdd-HHmmss", Locale.ROOT).withZone(ZoneOffset.UTC);

  private final Path folder;
  private final Path ledger;
  private final Watcher watcher;

  /** Hears of each step before it is done. */
  @FunctionalInterface
  interface Watcher {
    /** Does nothing. */
    Watcher NONE = step -> {};

    void before(String step);
  }

  Restore(Path folder, Watcher watcher) {
    this.folder = folder.toAbsolutePath();
    this.ledger = LedgerFile.in(folder).path();
    this.watcher = watcher;
  }

  Optional<Path> from(Path backup, boolean replace, Instant now) {
    requireBackup(backup);
    if (Files.exists(ledger) && !replace) {
      throw new LedgerException(
          LedgerException.Reason.STORAGE,
          "expected a folder without a ledger, found one in "
              + folder
              + "; --replace moves it aside first, --ledger names another folder");
    }
    try {
      watcher.before("make the folder");
      Files.createDirectories(folder);
      try (FileChannel channel =
              FileChannel.open(
                  ledger.resolveSibling(LedgerFile.NAME + ".lock"),
                  StandardOpenOption.CREATE,
                  StandardOpenOption.WRITE);
          FileLock lock = channel.lock()) {
        if (!lock.isValid()) {
          throw new InterruptedIOException("the lock of the ledger was lost");
        }
        return locked(backup, now);
      }
    } catch (IOException | UncheckedIOException e) {
      throw new LedgerException(
          LedgerException.Reason.STORAGE,
          "the backup could not be restored; the ledger is as it was. Check that its folder "
              + "belongs to you and has room for a second copy",
          e);
    }
  }

  private static void requireBackup(Path backup) {
    if (!Files.isRegularFile(backup)) {
      throw new LedgerException(
          LedgerException.Reason.STORAGE,
          "expected a backup, found no file " + backup + "; name one that \"backup\" made");
    }
    for (String log : List.of("-wal", "-journal")) {
      Path beside = backup.resolveSibling(backup.getFileName() + log);
      if (beside.toFile().length() > 0) {
        throw new LedgerException(
            LedgerException.Reason.STORAGE,
            "expected a backup in one file, found a log beside it that holds changes of it or of"
                + " another ledger: "
                + beside
                + "; nothing was changed. Put both into a folder of their own as "
                + LedgerFile.NAME
                + " and "
                + LedgerFile.NAME
                + log
                + ", run \"backup\" with that folder as --ledger, and restore what it makes");
      }
    }
  }

  private Optional<Path> locked(Path backup, Instant now) throws IOException {
    removeUnfinished();
    Path part = folder.resolve(PART + NAME.format(now) + PART_END);
    boolean done = false;
    try {
      watcher.before("copy the backup");
      Files.copy(backup, part, StandardCopyOption.REPLACE_EXISTING);
      watcher.before("check the copy");
      prove(part);
      watcher.before("bring the copy up to date");
      bringUpToDate(part);
      watcher.before("close the copy");
      intoOneFile(part);
      force(part);
      Optional<Path> aside = moveAside(now);
      watcher.before("name the copy");
      Files.move(part, ledger, StandardCopyOption.ATOMIC_MOVE);
      done = true;
      forceFolder();
      watcher.before("tell");
      return aside;
    } catch (SQLException e) {
      throw LedgerException.of(e);
    } finally {
      if (!done) {
        removeUnfinished();
      }
    }
  }

  /**
   * What an earlier restore that was killed has left: its copy, and a second name of a ledger that
   * it did not come to replace.
   */
  private void removeUnfinished() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.toList()) {
        String name = file.getFileName().toString();
        boolean part = name.startsWith(PART) && name.contains(PART_END);
        boolean secondName =
            name.startsWith(ASIDE) && Files.exists(ledger) && Files.isSameFile(file, ledger);
        if (part || secondName) {
          Files.deleteIfExists(file);
        }
      }
    }
  }

  private static void prove(Path part) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + part.toUri());
        Statement statement = connection.createStatement();
        ResultSet result = statement.executeQuery("PRAGMA integrity_check(1)")) {
      String verdict = result.getString(1);
      if (!"ok".equals(verdict)) {
        throw notSound(verdict);
      }
      try (ResultSet tables = statement.executeQuery("SELECT count(*) FROM sqlite_master")) {
        if (tables.getInt(1) == 0) {
          throw notSound("an empty file");
        }
      }
    } catch (SQLException e) {
      LedgerException problem = LedgerException.of(e);
      if (problem.reason() == LedgerException.Reason.NOT_A_LEDGER) {
        throw notSound(String.valueOf(e.getMessage()));
      }
      throw e;
    }
  }

  private static void bringUpToDate(Path part) {
    try {
      LedgerFile.at(part).bringUpToDateAlone();
    } catch (LedgerException e) {
      if (e.reason() == LedgerException.Reason.NOT_A_LEDGER) {
        throw notSound("a database of something else");
      }
      throw e;
    }
  }

  private static LedgerException notSound(String found) {
    return new LedgerException(
        LedgerException.Reason.NOT_A_LEDGER,
        "expected a sound backup, found: "
            + found
            + "; nothing was changed, take an earlier backup");
  }

  /** Brings the log's content into the file and does away with the log. */
  private static void intoOneFile(Path file) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file.toUri());
        Statement statement = connection.createStatement()) {
      statement.execute("PRAGMA busy_timeout = " + LedgerFile.BUSY_TIMEOUT.toMillis());
      try (ResultSet mode = statement.executeQuery("PRAGMA journal_mode = DELETE")) {
        if (!"delete".equals(mode.getString(1))) {
          throw inUse(null);
        }
      }
    }
  }

  /**
   * Gives the ledger that is there a second name. It has no log by then, unless it is damaged or
   * gone: then the log is moved, so that nobody takes it for the log of the new ledger.
   */
  private Optional<Path> moveAside(Instant now) throws IOException, SQLException {
    boolean there = Files.exists(ledger);
    if (there) {
      watcher.before("close the ledger");
      closeLedger();
    }
    Path aside = folder.resolve(ASIDE + NAME.format(now) + ".gpkg");
    for (int again = 2; Files.exists(aside); again++) {
      aside = folder.resolve(ASIDE + NAME.format(now) + "-" + again + ".gpkg");
    }
    if (there) {
      watcher.before("name the ledger");
      secondName(ledger, aside);
    }
    for (String log : LOGS) {
      Path beside = ledger.resolveSibling(LedgerFile.NAME + log);
      if (Files.exists(beside)) {
        Files.move(beside, aside.resolveSibling(aside.getFileName() + log));
      }
    }
    return there ? Optional.of(aside) : Optional.empty();
  }

  /** Makes the ledger one file, unless it is damaged; refuses one that a program has open. */
  private void closeLedger() throws IOException, SQLException {
    // SQLite deletes the log of a file that is too short to be a database: it must not see it.
    if (!SpotReader.isSqlite(ledger) || Files.size(ledger) < SMALLEST_DATABASE_BYTES) {
      return;
    }
    try {
      intoOneFile(ledger);
    } catch (SQLException e) {
      LedgerException problem = LedgerException.of(e);
      if (problem.reason() == LedgerException.Reason.BUSY) {
        throw inUse(e);
      }
      if (problem.reason() != LedgerException.Reason.NOT_A_LEDGER) {
        throw e;
      }
    }
  }

  private static LedgerException inUse(@Nullable SQLException cause) {
    return new LedgerException(
        LedgerException.Reason.BUSY,
        "another program has this ledger open; close it, then try again",
        cause);
  }

  /** A copy where the disk knows no second names. */
  private static void secondName(Path file, Path name) throws IOException {
    try {
      Files.createLink(name, file);
    } catch (UnsupportedOperationException | FileSystemException e) {
      if (e instanceof FileAlreadyExistsException exists) {
        throw exists;
      }
      Files.copy(file, name);
      force(name);
    }
  }

  private static void force(Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
  }

  /** The new name reaches the disk as well, where the system lets a folder be opened. */
  private void forceFolder() {
    try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
      channel.force(true);
    } catch (IOException e) {
      // Some systems open no folders; there the disk keeps its own time.
      return;
    }
  }
}
