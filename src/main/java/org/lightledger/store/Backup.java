package org.lightledger.store;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;

/**
 * Copies a ledger that is in use. The copy is made by SQLite's VACUUM INTO from one snapshot, so it
 * is whole and compact, needs no log beside it, and holds up no one.
 */
final class Backup {
  private final LedgerFile file;

  Backup(LedgerFile file) {
    this.file = file;
  }

  /**
   * Makes the copy beside its final name, proves it, and only then gives it that name. The name is
   * taken at the start, so that nothing that turns up meanwhile is overwritten.
   */
  void to(Path target) {
    try {
      Files.createFile(target);
    } catch (FileAlreadyExistsException e) {
      throw new LedgerException(
          LedgerException.Reason.STORAGE,
          "expected the name of a new file, found that "
              + target.getFileName()
              + " exists; choose another name, or move that file away",
          e);
    } catch (IOException e) {
      throw notWritten(target, e);
    }
    boolean done = false;
    try {
      Path folder = target.toAbsolutePath().getParent();
      Path part = Files.createTempFile(folder, "backup", ".part");
      try {
        copy(part);
        prove(part);
        try (FileChannel channel = FileChannel.open(part, StandardOpenOption.WRITE)) {
          channel.force(true);
        }
        Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
        done = true;
      } finally {
        Files.deleteIfExists(part);
      }
    } catch (IOException e) {
      throw notWritten(target, e);
    } catch (SQLException e) {
      throw LedgerException.of(e);
    } finally {
      if (!done) {
        delete(target);
      }
    }
  }

  private void copy(Path part) throws SQLException {
    try (Connection connection = file.connectForWriting();
        PreparedStatement vacuum = connection.prepareStatement("VACUUM INTO ?")) {
      vacuum.setString(1, part.toAbsolutePath().toString());
      vacuum.execute();
    }
  }

  private static void prove(Path part) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + part.toUri());
        Statement statement = connection.createStatement();
        ResultSet result = statement.executeQuery("PRAGMA quick_check")) {
      String verdict = result.getString(1);
      if (!"ok".equals(verdict)) {
        throw new LedgerException(
            LedgerException.Reason.NOT_A_LEDGER,
            "expected a sound copy, found: "
                + verdict
                + "; the ledger itself may be damaged, so run the check");
      }
    }
  }

  private static LedgerException notWritten(Path target, IOException cause) {
    return new LedgerException(
        LedgerException.Reason.STORAGE,
        "the backup "
            + target.getFileName()
            + " could not be written; check that its folder exists, belongs to you and has room",
        cause);
  }

  private static void delete(Path path) {
    try {
      Files.deleteIfExists(path);
    } catch (IOException e) {
      throw notWritten(path, e);
    }
  }
}
