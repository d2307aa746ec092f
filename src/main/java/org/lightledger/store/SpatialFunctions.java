package org.lightledger.store;

import java.sql.Connection;
import java.sql.SQLException;
import org.jspecify.annotations.Nullable;
import org.sqlite.Function;

/** The SQL functions that the triggers of the spatial index call (OGC 12-128r17, annex F.3). */
final class SpatialFunctions {
  private SpatialFunctions() {}

  static void register(Connection connection) throws SQLException {
    bound(connection, "ST_MinX", GeoPackageGeometry.Bound.MIN_X);
    bound(connection, "ST_MaxX", GeoPackageGeometry.Bound.MAX_X);
    bound(connection, "ST_MinY", GeoPackageGeometry.Bound.MIN_Y);
    bound(connection, "ST_MaxY", GeoPackageGeometry.Bound.MAX_Y);
    create(
        connection,
        "ST_IsEmpty",
        new OfBlob() {
          @Override
          protected void answer(byte[] blob) throws SQLException {
            Boolean empty = GeoPackageGeometry.isEmpty(blob);
            if (empty == null) {
              result();
            } else {
              result(empty ? 1 : 0);
            }
          }
        });
  }

  private static void bound(Connection connection, String name, GeoPackageGeometry.Bound bound)
      throws SQLException {
    create(
        connection,
        name,
        new OfBlob() {
          @Override
          protected void answer(byte[] blob) throws SQLException {
            Double value = GeoPackageGeometry.bound(blob, bound);
            if (value == null) {
              result();
            } else {
              result(value);
            }
          }
        });
  }

  private static void create(Connection connection, String name, Function function)
      throws SQLException {
    Function.create(connection, name, function, 1, Function.FLAG_DETERMINISTIC);
  }

  private abstract static class OfBlob extends Function {
    @Override
    protected void xFunc() throws SQLException {
      byte @Nullable [] blob = value_blob(0);
      if (blob == null) {
        result();
      } else {
        answer(blob);
      }
    }

    protected abstract void answer(byte[] blob) throws SQLException;
  }
}
