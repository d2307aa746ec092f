package org.lightledger.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.StringJoiner;
import org.jspecify.annotations.Nullable;
import org.lightledger.exchange.SpotDraft;
import org.lightledger.exchange.SpotFile;
import org.lightledger.exchange.UnreadableSpotsException;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Point;

/**
 * Reads the point layers of a GeoPackage. One made by {@link SpotPackage}, or a ledger, gives its
 * spots and none of its other layers; of any other the columns name or title, description, area and
 * cautions are taken over. Not thread-safe.
 */
final class PackageLayers {
  private static final int WGS84 = 4326;
  private static final Set<String> OWN_COLUMNS =
      Set.of("id", "name", "area", "zone", "open", "notes", "cautions");

  private final Connection connection;
  private final SpotFile.Gathering gathering = new SpotFile.Gathering();
  private final Map<Long, List<String[]>> facings = new HashMap<>();
  private final Map<Long, List<String>> traits = new HashMap<>();
  private final Map<Long, List<String>> hazards = new HashMap<>();

  PackageLayers(Connection connection) {
    this.connection = connection;
  }

  /** A feature table and its columns by their names in lower case. */
  private record Layer(String table, String geometry, Map<String, String> columns) {
    boolean isOwn() {
      return table.equals(SpotPackage.SPOTS) && columns.keySet().containsAll(OWN_COLUMNS);
    }
  }

  SpotFile read() throws SQLException, UnreadableSpotsException {
    for (String table : List.of("gpkg_contents", "gpkg_geometry_columns", "gpkg_spatial_ref_sys")) {
      if (!isTable(table)) {
        throw new UnreadableSpotsException(
            "Expected a GeoPackage, found a database without the table "
                + table
                + "; nothing of it was taken over.");
      }
    }
    List<Layer> layers = layers();
    Layer own = layers.stream().filter(Layer::isOwn).findFirst().orElse(null);
    if (own != null) {
      ownDetails();
    }
    for (Layer layer : own == null ? layers : List.of(own)) {
      features(layer, own != null);
    }
    if (layers.isEmpty() && gathering.isEmpty()) {
      gathering.remark("The GeoPackage has no layer of points in EPSG:4326.");
    }
    return gathering.file();
  }

  /** A true table: views and virtual tables have no root page. */
  private boolean isTable(String name) throws SQLException {
    try (PreparedStatement query =
        connection.prepareStatement(
            "SELECT count(*) FROM sqlite_master"
                + " WHERE type = 'table' AND rootpage > 0 AND name = ? COLLATE NOCASE")) {
      query.setString(1, name);
      try (ResultSet row = query.executeQuery()) {
        return row.getLong(1) == 1;
      }
    }
  }

  private List<Layer> layers() throws SQLException {
    List<Layer> layers = new ArrayList<>();
    try (Statement statement = connection.createStatement();
        ResultSet row =
            statement.executeQuery(
                "SELECT c.table_name, g.column_name, upper(g.geometry_type_name),"
                    + " s.organization, s.organization_coordsys_id"
                    + " FROM gpkg_contents c JOIN gpkg_geometry_columns g"
                    + " ON g.table_name = c.table_name COLLATE NOCASE"
                    + " LEFT JOIN gpkg_spatial_ref_sys s ON s.srs_id = g.srs_id"
                    + " WHERE c.data_type = 'features' ORDER BY c.rowid LIMIT 1000")) {
      while (row.next()) {
        String table = row.getString(1);
        String column = row.getString(2);
        if (table == null || column == null) {
          continue;
        }
        String type = String.valueOf(row.getString(3));
        String system = row.getString(4) + ":" + row.getInt(5);
        String refusal = refusal(table, type, system);
        if (refusal == null) {
          layers.add(new Layer(table, column, columns(table)));
        } else {
          gathering.remark("Layer " + table + " was not read: " + refusal + ".");
        }
      }
    }
    return layers;
  }

  private @Nullable String refusal(String table, String type, String system) throws SQLException {
    if (!type.equals("POINT") && !type.equals("GEOMETRY")) {
      return "expected points, found the geometry " + type;
    }
    if (!isTable(table)) {
      return "expected a table, found a view or something else";
    }
    return system.equalsIgnoreCase("EPSG:" + WGS84)
        ? null
        : "expected the reference system EPSG:4326 (WGS 84), found "
            + system
            + "; convert it, for example with ogr2ogr -t_srs EPSG:4326";
  }

  /** Plain columns; generated ones, which compute something, are not among them. */
  private Map<String, String> columns(String table) throws SQLException {
    Map<String, String> columns = new HashMap<>();
    try (PreparedStatement query =
        connection.prepareStatement("SELECT name FROM pragma_table_info(?)")) {
      query.setString(1, table);
      try (ResultSet row = query.executeQuery()) {
        while (row.next()) {
          String name = row.getString(1);
          columns.put(ForeignPackage.lower(name), name);
        }
      }
    }
    return columns;
  }

  private void ownDetails() throws SQLException {
    if (isTable(SpotPackage.FACINGS)) {
      boolean ledger = columns(SpotPackage.FACINGS).containsKey("origin");
      try (Statement statement = connection.createStatement();
          ResultSet row =
              statement.executeQuery(
                  "SELECT spot_id, bearing_deg, spread_deg FROM facings ORDER BY "
                      + (ledger ? "origin, id" : "id"))) {
        while (row.next()) {
          facings
              .computeIfAbsent(row.getLong(1), id -> new ArrayList<>())
              .add(new String[] {real(row, 2), real(row, 3)});
        }
      }
    }
    if (isTable(SpotPackage.TRAITS)) {
      codes("SELECT spot_id, trait FROM spot_traits", traits);
    }
    if (isTable(SpotPackage.HAZARDS)) {
      codes("SELECT spot_id, hazard FROM spot_hazards", hazards);
    }
  }

  private void codes(String query, Map<Long, List<String>> bySpot) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(query)) {
      while (row.next()) {
        bySpot
            .computeIfAbsent(row.getLong(1), id -> new ArrayList<>())
            .add(String.valueOf(row.getString(2)).replace('_', '-'));
      }
    }
  }

  private static String real(ResultSet row, int column) throws SQLException {
    return row.getObject(column) instanceof Number number ? number.toString() : "nothing";
  }

  private void features(Layer layer, boolean own) throws SQLException, UnreadableSpotsException {
    Map<String, Integer> places = new HashMap<>();
    StringJoiner list = new StringJoiner(", ");
    list.add(ForeignPackage.quoted(layer.geometry()));
    for (Map.Entry<String, String> column : layer.columns().entrySet()) {
      if (OWN_COLUMNS.contains(column.getKey())
          || Set.of("title", "description", "desc").contains(column.getKey())) {
        places.put(column.getKey(), places.size() + 2);
        list.add(ForeignPackage.quoted(column.getValue()));
      }
    }
    String order = own ? " ORDER BY id" : "";
    try (Statement statement = connection.createStatement();
        ResultSet row =
            statement.executeQuery(
                "SELECT " + list + " FROM " + ForeignPackage.quoted(layer.table()) + order)) {
      int number = 0;
      while (row.next()) {
        number++;
        SpotDraft draft = new SpotDraft();
        place(draft, row.getBytes(1));
        words(draft, row, places);
        if (own) {
          details(draft, row.getLong(places.getOrDefault("id", 1)));
        }
        gathering.take(layer.table() + " " + number, draft);
      }
    }
  }

  private static void place(SpotDraft draft, byte @Nullable [] blob) {
    if (blob == null) {
      draft.noPlace("expected a point, found no geometry");
      return;
    }
    try {
      Geometry geometry = GeoPackageGeometry.read(blob);
      if (!(geometry instanceof Point point) || point.isEmpty()) {
        draft.noPlace(
            "expected a point, found "
                + (geometry.isEmpty() ? "an empty geometry" : "a " + geometry.getGeometryType()));
        return;
      }
      draft.at(point.getY(), point.getX());
    } catch (IllegalArgumentException e) {
      draft.noPlace(String.valueOf(e.getMessage()));
    }
  }

  private static void words(SpotDraft draft, ResultSet row, Map<String, Integer> places)
      throws SQLException {
    draft.name(text(row, places, "name"));
    if (!draft.isNamed()) {
      draft.name(text(row, places, "title"));
    }
    draft.area(text(row, places, "area"));
    draft.zone(text(row, places, "zone"));
    draft.open(text(row, places, "open"));
    draft.cautions(text(row, places, "cautions"));
    String notes = text(row, places, "notes");
    String description = text(row, places, "description");
    draft.notes(
        notes != null ? notes : description != null ? description : text(row, places, "desc"));
  }

  private static @Nullable String text(ResultSet row, Map<String, Integer> places, String column)
      throws SQLException {
    Integer place = places.get(column);
    return place == null ? null : row.getString(place);
  }

  private void details(SpotDraft draft, long spotId) {
    for (String[] facing : facings.getOrDefault(spotId, List.of())) {
      draft.facing(facing[0], facing[1]);
    }
    for (String trait : traits.getOrDefault(spotId, List.of())) {
      draft.traits(trait);
    }
    for (String hazard : hazards.getOrDefault(spotId, List.of())) {
      draft.hazards(hazard);
    }
  }
}
