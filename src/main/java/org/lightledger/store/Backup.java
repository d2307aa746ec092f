package org.lightledger.store;

import java.nio.channels.FileChannel;
import java.nio.file.Path;
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

  /** Makes the copy and proves it before it gets its name. */
  void to(Path target) {
    new NewFile(target, "backup")
        .make(
            part -> {
              copy(part);
              prove(part);
              try (FileChannel channel = FileChannel.open(part, StandardOpenOption.WRITE)) {
                channel.force(true);
              }
            });
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
}
