package org.lightledger.store;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** A prepared statement whose parameters are filled in from left to right. Not thread-safe. */
final class Call {
  private final PreparedStatement statement;
  private int filled;

  Call(PreparedStatement statement) {
    this.statement = statement;
  }

  /** Reads one value from the row a result stands on. */
  @FunctionalInterface
  interface RowReader<T> {
    T read(Row row) throws SQLException;
  }

  /** Looks at the row a result stands on. */
  @FunctionalInterface
  interface RowVisitor {
    void visit(Row row) throws SQLException;
  }

  Call restart() {
    filled = 0;
    return this;
  }

  Call text(@Nullable String value) {
    try {
      statement.setString(++filled, value);
      return this;
    } catch (SQLException e) {
      throw LedgerException.of(e);
    }
  }

  Call textOf(@Nullable Object value) {
    return text(value == null ? null : value.toString());
  }

  Call name(@Nullable Enum<?> value) {
    return text(value == null ? null : value.name());
  }

  Call integer(long value) {
    try {
      statement.setLong(++filled, value);
      return this;
    } catch (SQLException e) {
      throw LedgerException.of(e);
    }
  }

  Call integer(@Nullable Number value) {
    return value == null ? nothing() : integer(value.longValue());
  }

  Call flag(boolean value) {
    return integer(value ? 1 : 0);
  }

  Call millis(@Nullable Instant value) {
    return value == null ? nothing() : integer(value.toEpochMilli());
  }

  /** Refuses what is not finite: SQLite would keep NaN as "not known". */
  Call real(String what, @Nullable Double value) {
    if (value == null) {
      return nothing();
    }
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("expected a finite " + what + ", found " + value);
    }
    try {
      statement.setDouble(++filled, value);
      return this;
    } catch (SQLException e) {
      throw LedgerException.of(e);
    }
  }

  Call blob(byte @Nullable [] value) {
    try {
      statement.setBytes(++filled, value);
      return this;
    } catch (SQLException e) {
      throw LedgerException.of(e);
    }
  }

  private Call nothing() {
    return blob(null);
  }

  /** Runs a statement that changes rows, and tells how many. */
  int run() {
    try {
      return statement.executeUpdate();
    } catch (SQLException e) {
      throw LedgerException.of(e);
    }
  }

  /** Runs a statement that returns one whole number, such as INSERT … RETURNING id. */
  long number() {
    try (ResultSet result = statement.executeQuery()) {
      return result.getLong(1);
    } catch (SQLException e) {
      throw LedgerException.of(e);
    }
  }

  <T> List<T> list(RowReader<T> reader) {
    List<T> found = new ArrayList<>();
    each(row -> found.add(reader.read(row)));
    return found;
  }

  <T> Optional<T> first(RowReader<T> reader) {
    try (ResultSet result = statement.executeQuery()) {
      Row row = new Row(result);
      return row.next() ? Optional.of(reader.read(row)) : Optional.empty();
    } catch (SQLException e) {
      throw LedgerException.of(e);
    }
  }

  void each(RowVisitor visitor) {
    try (ResultSet result = statement.executeQuery()) {
      Row row = new Row(result);
      while (row.next()) {
        visitor.visit(row);
      }
    } catch (SQLException e) {
      throw LedgerException.of(e);
    }
  }
}
