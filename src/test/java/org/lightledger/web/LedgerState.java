package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.lightledger.store.LedgerCheck;

/** What a ledger holds, read past the program: to tell that an attack changed nothing. */
final class LedgerState {
  private LedgerState() {}

  /** Every table with the number of its rows and a sum over what they hold. */
  static Map<String, String> of(Path folder) {
    Map<String, String> state = new TreeMap<>();
    try (Connection file =
            DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("ledger.gpkg"));
        Statement statement = file.createStatement()) {
      List<String> tables = new ArrayList<>();
      try (ResultSet rows =
          statement.executeQuery("SELECT name, sql FROM sqlite_master WHERE type = 'table'")) {
        while (rows.next()) {
          if (!String.valueOf(rows.getString(2)).contains("VIRTUAL")) {
            tables.add(rows.getString(1));
          }
        }
      }
      for (String table : tables) {
        state.put(table, rows(statement, table));
      }
      return state;
    } catch (SQLException e) {
      throw new IllegalStateException(e);
    }
  }

  private static String rows(Statement statement, String table) throws SQLException {
    int count = 0;
    long sum = 0;
    try (ResultSet rows = statement.executeQuery("SELECT * FROM \"" + table + "\"")) {
      int columns = rows.getMetaData().getColumnCount();
      while (rows.next()) {
        count++;
        StringBuilder row = new StringBuilder();
        for (int column = 1; column <= columns; column++) {
          row.append(rows.getString(column)).append('|');
        }
        sum += row.toString().hashCode();
      }
    }
    return count + " rows, sum " + sum;
  }

  static void assertSound(Path folder) {
    assertThat(LedgerCheck.run(folder)).isEmpty();
  }
}
