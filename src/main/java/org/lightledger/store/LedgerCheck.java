package org.lightledger.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/**
 * Checks a ledger's file without changing it: whether SQLite can read all of it, whether it is a
 * GeoPackage, and whether its tables agree with each other. It works on files that {@link Ledger}
 * refuses to open, and beside programs that read and write.
 */
public final class LedgerCheck {
  private static final int APPLICATION_ID_GPKG = 0x47504B47;
  private static final int GEOPACKAGE_1_3 = 10300;
  static final List<String> FEATURES = List.of("spots", "shots", "obstructions", "map_features");
  private static final List<String> COUNTED = List.of("spots", "shots", "obstructions", "maps");

  private static final String RESTORE =
      "keep a copy of the file, then go back to the latest backup that passes this check";
  private static final String REPAIR = "rebuild the spatial indexes (check --repair)";

  private final Statement statement;
  private final List<Finding> findings = new ArrayList<>();

  private LedgerCheck(Statement statement) {
    this.statement = statement;
  }

  /**
   * Checks the ledger of a folder.
   *
   * @param folder the ledger's folder
   * @return what is wrong; empty when nothing is
   */
  public static List<Finding> run(Path folder) {
    LedgerFile file = LedgerFile.in(folder);
    if (!file.exists()) {
      return List.of(
          new Finding(
              "no file named " + LedgerFile.NAME,
              "a ledger",
              "check the folder's name; a new ledger is made by the first import"));
    }
    List<Finding> found = new ArrayList<>();
    try (Connection connection = file.connectForReading();
        Statement statement = connection.createStatement()) {
      LedgerCheck check = new LedgerCheck(statement);
      try {
        check.all();
      } finally {
        found.addAll(check.findings);
      }
    } catch (SQLException e) {
      found.add(unreadable(LedgerException.of(e)));
    } catch (LedgerException e) {
      found.add(unreadable(e));
    }
    return List.copyOf(found);
  }

  private static Finding unreadable(LedgerException problem) {
    return new Finding(
        String.valueOf(problem.getMessage()), "a file that SQLite can read to its end", RESTORE);
  }

  private void all() throws SQLException {
    header("application_id", APPLICATION_ID_GPKG);
    header("user_version", GEOPACKAGE_1_3);
    damage();
    danglingReferences();
    Set<String> missing = missing();
    if (missing.isEmpty()) {
      for (String table : FEATURES) {
        spatialIndex(table);
        positions(table);
      }
    } else {
      findings.add(
          new Finding(
              "a file without " + String.join(", ", missing),
              "the tables, indexes and triggers of a GeoPackage ledger",
              RESTORE));
    }
  }

  private void header(String name, int expected) throws SQLException {
    long found = number("PRAGMA " + name);
    if (found != expected) {
      findings.add(
          new Finding(
              name + " " + found,
              name + " " + expected + ", which makes the file a GeoPackage 1.3",
              "set it back with any SQLite shell: PRAGMA " + name + " = " + expected));
    }
  }

  private void damage() throws SQLException {
    for (String line : texts("PRAGMA integrity_check")) {
      if (!line.equals("ok")) {
        findings.add(new Finding(line, "every page and index in order", RESTORE));
      }
    }
  }

  private void danglingReferences() throws SQLException {
    for (String line :
        texts(
            "SELECT 'row ' || rowid || ' of ' || \"table\" || ' names a row of ' || parent"
                + " || ' that is not there' FROM pragma_foreign_key_check")) {
      findings.add(
          new Finding(
              line,
              "a row that is there",
              "a program changed the file with foreign keys off: correct the row there, or "
                  + RESTORE));
    }
  }

  private Set<String> missing() throws SQLException {
    Set<String> missing =
        new TreeSet<>(
            List.of(
                "gpkg_spatial_ref_sys",
                "gpkg_contents",
                "gpkg_geometry_columns",
                "gpkg_extensions",
                "facings",
                "files",
                "stock",
                "shortlists",
                "shortlist_entries",
                "shares",
                "share_picks",
                "outfit_pictures",
                "settings",
                "corrections",
                "corrected_shots",
                "corrected_spots",
                "maps",
                "map_stock",
                "clients",
                "packages",
                "sessions",
                "session_candidates",
                "plans",
                "plan_stops",
                "plan_changes",
                "drives",
                "spot_hours",
                "client_questions",
                "answers",
                "templates",
                "sent_messages",
                "gear",
                "session_items",
                "calendar_entries"));
    for (String table : FEATURES) {
      missing.add(table);
      missing.add("rtree_" + table + "_geom");
      for (String event : List.of("insert", "update1", "update2", "update3", "update4", "delete")) {
        missing.add("rtree_" + table + "_geom_" + event);
      }
    }
    for (String table : COUNTED) {
      for (String event : List.of("insert", "update", "delete")) {
        missing.add(table + "_stock_" + event);
      }
    }
    texts("SELECT name FROM sqlite_master").forEach(missing::remove);
    return missing;
  }

  private void spatialIndex(String table) throws SQLException {
    String index = "rtree_" + table + "_geom";
    if (number(
            "SELECT count(*) FROM gpkg_geometry_columns g JOIN gpkg_contents c USING (table_name)"
                + " JOIN gpkg_extensions e USING (table_name) WHERE table_name = '"
                + table
                + "' AND g.column_name = 'geom' AND c.data_type = 'features'"
                + " AND e.extension_name = 'gpkg_rtree_index' AND e.scope = 'write-only'")
        == 0) {
      findings.add(
          new Finding(
              table + " without its rows in the gpkg_ tables",
              "a row in gpkg_contents, gpkg_geometry_columns and gpkg_extensions",
              RESTORE));
    }
    long absent =
        number(
            "SELECT count(*) FROM "
                + table
                + " t LEFT JOIN "
                + index
                + " r ON r.id = t.id WHERE t.geom IS NOT NULL AND NOT ST_IsEmpty(t.geom)"
                + " AND (r.id IS NULL OR ST_MinX(t.geom) < r.minx OR ST_MaxX(t.geom) > r.maxx"
                + " OR ST_MinY(t.geom) < r.miny OR ST_MaxY(t.geom) > r.maxy)");
    if (absent > 0) {
      findings.add(
          new Finding(
              absent + " rows of " + table + " that the spatial index misses or misplaces",
              "every position in the index",
              REPAIR));
    }
    long surplus =
        number(
            "SELECT count(*) FROM "
                + index
                + " r LEFT JOIN "
                + table
                + " t ON t.id = r.id WHERE t.geom IS NULL OR ST_IsEmpty(t.geom)");
    if (surplus > 0) {
      findings.add(
          new Finding(
              surplus + " places in the spatial index that belong to no position of " + table,
              "a position for every place in the index",
              REPAIR));
    }
  }

  private void positions(String table) throws SQLException {
    for (String id :
        texts(
            "SELECT id FROM "
                + table
                + " WHERE geom IS NOT NULL AND NOT coalesce(ST_MinX(geom) BETWEEN -180 AND 180"
                + " AND ST_MinY(geom) BETWEEN -90 AND 90, 0)")) {
      findings.add(
          new Finding(
              "row " + id + " of " + table + " with a position that is not on the earth",
              "a point with a longitude in [-180, 180] and a latitude in [-90, 90]",
              "a program moved it there: correct it in that program, or " + RESTORE));
    }
  }

  private long number(String sql) throws SQLException {
    try (ResultSet row = statement.executeQuery(sql)) {
      return row.getLong(1);
    }
  }

  private List<String> texts(String sql) throws SQLException {
    List<String> texts = new ArrayList<>();
    try (ResultSet rows = statement.executeQuery(sql)) {
      while (rows.next()) {
        texts.add(rows.getString(1));
      }
    }
    return texts;
  }
}
