package org.lightledger.store;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.lightledger.exchange.ExchangedSpot;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Trait;

/**
 * Writes a GeoPackage that holds spots alone: a feature table of them, and attribute tables of
 * their facings and traits. It has no spatial index, no trigger and nothing of shots or clients.
 */
public final class SpotPackage {
  static final String SPOTS = "spots";
  static final String FACINGS = "facings";
  static final String TRAITS = "spot_traits";
  static final String HAZARDS = "spot_hazards";

  /** The tables that every GeoPackage has, with its marks in the file's header. */
  private static final String CORE = "/schema/V1__geopackage.sql";

  private static final DateTimeFormatter CHANGED =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss.SSS'Z'", Locale.ROOT)
          .withZone(ZoneOffset.UTC);

  private SpotPackage() {}

  /**
   * Writes a file.
   *
   * @param file an empty or absent file
   * @param spots the spots
   * @param now what is noted as the time of the last change
   * @throws LedgerException when it can not be written
   */
  public static void write(Path file, List<ExchangedSpot> spots, Instant now) {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file.toUri());
        Statement statement = connection.createStatement()) {
      connection.setAutoCommit(false);
      statement.executeUpdate(core());
      tables(statement);
      rows(connection, spots);
      contents(connection, spots, now);
      connection.commit();
    } catch (SQLException e) {
      throw LedgerException.of(e);
    } catch (IOException e) {
      throw new LedgerException(
          LedgerException.Reason.OTHER, "the program's own schema can not be read", e);
    }
  }

  private static String core() throws IOException {
    try (InputStream in = SpotPackage.class.getResourceAsStream(CORE)) {
      return new String(Objects.requireNonNull(in, CORE).readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  private static void tables(Statement statement) throws SQLException {
    statement.executeUpdate(
        "CREATE TABLE spots (id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, geom POINT NOT NULL,"
            + " name TEXT NOT NULL, area TEXT, zone TEXT, open BOOLEAN NOT NULL,"
            + " notes TEXT NOT NULL, cautions TEXT NOT NULL)");
    statement.executeUpdate(
        "CREATE TABLE facings (id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,"
            + " spot_id INTEGER NOT NULL REFERENCES spots (id), bearing_deg DOUBLE NOT NULL,"
            + " spread_deg DOUBLE NOT NULL)");
    statement.executeUpdate(
        "CREATE TABLE spot_traits (id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,"
            + " spot_id INTEGER NOT NULL REFERENCES spots (id), trait TEXT NOT NULL)");
    statement.executeUpdate(
        "CREATE TABLE spot_hazards (id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,"
            + " spot_id INTEGER NOT NULL REFERENCES spots (id), hazard TEXT NOT NULL)");
  }

  private static void rows(Connection connection, List<ExchangedSpot> spots) throws SQLException {
    try (PreparedStatement spotRow =
            connection.prepareStatement("INSERT INTO spots VALUES (?, ?, ?, ?, ?, ?, ?, ?)");
        PreparedStatement facingRow =
            connection.prepareStatement(
                "INSERT INTO facings (spot_id, bearing_deg, spread_deg) VALUES (?, ?, ?)");
        PreparedStatement traitRow =
            connection.prepareStatement("INSERT INTO spot_traits (spot_id, trait) VALUES (?, ?)");
        PreparedStatement hazardRow =
            connection.prepareStatement(
                "INSERT INTO spot_hazards (spot_id, hazard) VALUES (?, ?)")) {
      long id = 0;
      for (ExchangedSpot spot : spots) {
        id++;
        ZoneId zone = spot.zone();
        spotRow.setLong(1, id);
        spotRow.setBytes(2, GeoPackageGeometry.write(spot.position()));
        spotRow.setString(3, spot.name() == null ? "" : spot.name());
        spotRow.setString(4, spot.area());
        spotRow.setString(5, zone == null ? null : zone.getId());
        spotRow.setBoolean(6, spot.open());
        spotRow.setString(7, spot.notes());
        spotRow.setString(8, spot.cautions());
        spotRow.executeUpdate();
        for (ExchangedSpot.Looking facing : spot.facings()) {
          facingRow.setLong(1, id);
          facingRow.setDouble(2, facing.bearing().trueDeg());
          facingRow.setDouble(3, facing.spreadDeg());
          facingRow.executeUpdate();
        }
        for (Trait trait : spot.traits()) {
          traitRow.setLong(1, id);
          traitRow.setString(2, trait.name());
          traitRow.executeUpdate();
        }
        for (Hazard hazard : spot.hazards()) {
          hazardRow.setLong(1, id);
          hazardRow.setString(2, hazard.name());
          hazardRow.executeUpdate();
        }
      }
    }
  }

  private static void contents(Connection connection, List<ExchangedSpot> spots, Instant now)
      throws SQLException {
    try (PreparedStatement row =
            connection.prepareStatement(
                "INSERT INTO gpkg_contents (table_name, data_type, identifier, description,"
                    + " last_change, min_x, min_y, max_x, max_y, srs_id)"
                    + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
        PreparedStatement column =
            connection.prepareStatement(
                "INSERT INTO gpkg_geometry_columns VALUES ('spots', 'geom', 'POINT', 4326, 0, 0)")) {
      row.setString(5, CHANGED.format(now));
      content(row, SPOTS, "features", "Spots", "Places where a subject can stand");
      if (!spots.isEmpty()) {
        row.setDouble(
            6, spots.stream().mapToDouble(s -> s.position().longitudeDeg()).min().orElseThrow());
        row.setDouble(
            7, spots.stream().mapToDouble(s -> s.position().latitudeDeg()).min().orElseThrow());
        row.setDouble(
            8, spots.stream().mapToDouble(s -> s.position().longitudeDeg()).max().orElseThrow());
        row.setDouble(
            9, spots.stream().mapToDouble(s -> s.position().latitudeDeg()).max().orElseThrow());
      }
      row.setInt(10, 4326);
      row.executeUpdate();
      column.executeUpdate();
      for (int bound = 6; bound <= 10; bound++) {
        row.setObject(bound, null);
      }
      content(row, FACINGS, "attributes", "Facings", "True bearings with a good background");
      row.executeUpdate();
      content(row, TRAITS, "attributes", "Traits", "What spots are and have");
      row.executeUpdate();
      content(row, HAZARDS, "attributes", "Hazards", "What is dangerous or forbidden there");
      row.executeUpdate();
    }
  }

  private static void content(
      PreparedStatement row, String table, String type, String identifier, String description)
      throws SQLException {
    row.setString(1, table);
    row.setString(2, type);
    row.setString(3, identifier);
    row.setString(4, description);
  }
}
