package org.lightledger.store;

import java.sql.ResultSet;
import java.sql.ResultSetMetaData;
import java.sql.SQLException;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** One row of a result, read from left to right. Not thread-safe. */
final class Row {
  private final ResultSet result;
  private int column;

  Row(ResultSet result) {
    this.result = result;
  }

  boolean next() throws SQLException {
    column = 0;
    return result.next();
  }

  long integer() throws SQLException {
    return result.getLong(++column);
  }

  @Nullable Long integerOrNull() throws SQLException {
    long value = integer();
    return value == 0 && result.wasNull() ? null : Long.valueOf(value);
  }

  int whole() throws SQLException {
    return result.getInt(++column);
  }

  @Nullable Integer wholeOrNull() throws SQLException {
    int value = whole();
    return value == 0 && result.wasNull() ? null : Integer.valueOf(value);
  }

  double real() throws SQLException {
    return result.getDouble(++column);
  }

  @Nullable Double realOrNull() throws SQLException {
    double value = real();
    return value == 0.0 && result.wasNull() ? null : Double.valueOf(value);
  }

  boolean flag() throws SQLException {
    return whole() == 1;
  }

  String text() throws SQLException {
    return String.valueOf(textOrNull());
  }

  @Nullable String textOrNull() throws SQLException {
    return result.getString(++column);
  }

  byte[] blob() throws SQLException {
    byte[] value = blobOrNull();
    return value == null ? new byte[0] : value;
  }

  byte @Nullable [] blobOrNull() throws SQLException {
    return result.getBytes(++column);
  }

  /** Every column of the row by its name, in order. */
  Map<String, @Nullable Object> all() throws SQLException {
    Map<String, @Nullable Object> values = new LinkedHashMap<>();
    ResultSetMetaData columns = result.getMetaData();
    for (int i = 1; i <= columns.getColumnCount(); i++) {
      values.put(columns.getColumnName(i), result.getObject(i));
    }
    return values;
  }

  Instant instant() throws SQLException {
    return Instant.ofEpochMilli(integer());
  }

  @Nullable Instant instantOrNull() throws SQLException {
    Long millis = integerOrNull();
    return millis == null ? null : Instant.ofEpochMilli(millis);
  }
}
