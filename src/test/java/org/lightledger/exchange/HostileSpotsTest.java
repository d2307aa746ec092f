package org.lightledger.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.OutputStream;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.geo.GeoPoint;
import org.lightledger.store.ForeignPackage;
import org.lightledger.store.SpotPackage;

/** Files made to do harm are refused with words, soon and in little memory. */
class HostileSpotsTest {
  private static final Duration SOON = Duration.ofSeconds(5);

  @TempDir Path folder;

  private static SpotFile read(String text) throws IOException, UnreadableSpotsException {
    return SpotReader.read(text.getBytes(StandardCharsets.UTF_8));
  }

  private static String point(String coordinates, String properties) {
    return "{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\",\"geometry\":"
        + "{\"type\":\"Point\",\"coordinates\":"
        + coordinates
        + "},\"properties\":"
        + properties
        + "}]}";
  }

  @ParameterizedTest
  @ValueSource(strings = {"kml", "gpx"})
  void aDocumentTypeIsRefusedAndNothingItNamesIsOpened(String root) throws Exception {
    Path secret = Files.writeString(folder.resolve("secret.txt"), "the-secret");
    try (ServerSocket server = new ServerSocket(0)) {
      server.setSoTimeout(200);
      String remote = "http://127.0.0.1:" + server.getLocalPort() + "/x.dtd";
      for (String type :
          List.of(
              "<!DOCTYPE r SYSTEM \"" + remote + "\">",
              "<!DOCTYPE r [<!ENTITY x SYSTEM \"" + secret.toUri() + "\">]>",
              "<!DOCTYPE r [<!ENTITY % p SYSTEM \"" + remote + "\"> %p;]>",
              "<!DOCTYPE r [<!ENTITY a \"lol\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;\">"
                  + "<!ENTITY c \"&b;&b;&b;&b;&b;&b;&b;&b;\">]>")) {
        assertThatThrownBy(
                () ->
                    read(
                        "<?xml version=\"1.0\"?>"
                            + type
                            + "<"
                            + root
                            + "><wpt lat=\"1\" lon=\"2\"><name>&x;&c;</name></wpt></"
                            + root
                            + ">"))
            .isInstanceOf(UnreadableSpotsException.class)
            .hasMessageContaining("document type declaration")
            .hasMessageNotContaining("the-secret");
      }
      assertThatThrownBy(server::accept).as("no connection").isInstanceOf(IOException.class);
    }
  }

  @Test
  void linksIntoTheNetworkAreToldAndNotFollowed() throws Exception {
    try (ServerSocket server = new ServerSocket(0)) {
      server.setSoTimeout(200);
      String link = "http://127.0.0.1:" + server.getLocalPort() + "/";
      SpotFile file =
          read(
              "<kml><Document><NetworkLink><Link><href>"
                  + link
                  + "</href></Link></NetworkLink>"
                  + "<Placemark><name>A</name><description><![CDATA[<img src='"
                  + link
                  + "'>]]>"
                  + "</description><Point><coordinates>1,2</coordinates></Point></Placemark>"
                  + "</Document></kml>");
      assertThat(file.remarks()).anyMatch(remark -> remark.contains("were not followed (1)"));
      assertThat(file.found()).hasSize(1);
      assertThatThrownBy(server::accept).as("no connection").isInstanceOf(IOException.class);
    }
  }

  @Test
  void deepNestingIsRefused() {
    assertThatThrownBy(() -> read("<kml>" + "<Folder>".repeat(1_000_000)))
        .isInstanceOf(UnreadableSpotsException.class)
        .hasMessageContaining("more than 100 elements within each other");
    assertThatThrownBy(() -> read("{\"type\":" + "[".repeat(1_000_000)))
        .isInstanceOf(UnreadableSpotsException.class)
        .hasMessageContaining("nothing of it was taken over");
    assertThatThrownBy(() -> read("{\"features\":[" + "{\"a\":".repeat(100_000)))
        .isInstanceOf(UnreadableSpotsException.class);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "[-6.6,95]; expected a latitude in [-90, 90] degrees, found 95.0",
        "[41.9,-106.6]; Nothing is swapped by a guess",
        "[1e999,1]; expected a longitude in [-180, 180] degrees, found Infinity",
        "[181,1]; expected a longitude",
        "[]; expected longitude and latitude as numbers",
        "[1]; expected longitude and latitude as numbers",
        "[\"1\",\"2\"]; expected longitude and latitude as numbers",
        "[[1,2],[3,4]]; expected longitude and latitude as numbers",
        "null; expected longitude and latitude as numbers"
      })
  void aWrongPlaceIsALineAndNoGuess(String coordinates, String words) throws Exception {
    SpotFile file = read(point(coordinates, "{\"name\":\"A\"}"));

    assertThat(file.found()).isEmpty();
    assertThat(file.problems()).singleElement().asString().contains("feature 1: ", words);
  }

  @ParameterizedTest
  @ValueSource(strings = {"[NaN,1]", "[Infinity,1]", "[1,2", "[0x1,2]"})
  void whatIsNoJsonIsRefused(String coordinates) {
    assertThatThrownBy(() -> read(point(coordinates, "{}")))
        .isInstanceOf(UnreadableSpotsException.class)
        .hasMessageContaining("Expected GeoJSON, found a mistake near line 1");
  }

  @Test
  void aNumberOfAMillionDigitsIsRefused() {
    assertThatThrownBy(() -> read(point("[" + "9".repeat(1_000_000) + ",1]", "{}")))
        .isInstanceOf(UnreadableSpotsException.class);
  }

  @ParameterizedTest
  @ValueSource(strings = {"NaN", "95", "1e9", "0x1p3", "1d", "", " "})
  void aWrongPlaceInXmlIsALine(String latitude) throws Exception {
    SpotFile gpx =
        read("<gpx><wpt lat=\"" + latitude + "\" lon=\"2\"/><wpt lat=\"1\" lon=\"2\"/></gpx>");
    SpotFile kml =
        read(
            "<kml><Placemark><Point><coordinates>2,"
                + latitude
                + "</coordinates></Point></Placemark></kml>");

    assertThat(gpx.problems()).hasSize(1);
    assertThat(gpx.found()).hasSize(1);
    assertThat(kml.problems()).hasSize(1);
  }

  @Test
  void aWrongDetailIsLeftOutAndTold() throws Exception {
    SpotFile file =
        read(
            point(
                "[1,2]",
                "{\"name\":\"A\",\"facings\":[{\"bearingDeg\":400,\"spreadDeg\":1},"
                    + "{\"bearingDeg\":40,\"spreadDeg\":1}],\"traits\":[\"volcano\"],\"zone\":\"?\","
                    + "\"open\":\"perhaps\"}"));

    SpotFile.Found found = file.found().get(0);
    assertThat(found.spot().facings()).hasSize(1);
    assertThat(found.leftOut())
        .hasSize(4)
        .anyMatch(line -> line.contains("expected a bearing in [0, 360) degrees, found 400.0"))
        .anyMatch(line -> line.contains("found \"volcano\""));
  }

  @Test
  void anotherReferenceSystemIsRefused() throws Exception {
    String crs =
        "{\"type\":\"FeatureCollection\",\"crs\":{\"type\":\"name\",\"properties\":"
            + "{\"name\":\"%s\"}},\"features\":[]}";
    assertThatThrownBy(() -> read(crs.formatted("urn:ogc:def:crs:EPSG::25829")))
        .hasMessageContaining("reference system of its own");
    assertThat(read(crs.formatted("urn:ogc:def:crs:OGC:1.3:CRS84")).problems()).isEmpty();
  }

  @Test
  void aZipBombIsRefused() throws Exception {
    Path bomb = folder.resolve("bomb.kmz");
    try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(bomb))) {
      zip.putNextEntry(new ZipEntry("doc.kml"));
      byte[] space = " ".repeat(1 << 20).getBytes(StandardCharsets.US_ASCII);
      for (int megabyte = 0; megabyte < 200; megabyte++) {
        zip.write(space);
      }
    }
    assertThatThrownBy(() -> SpotReader.read(bomb))
        .isInstanceOf(UnreadableSpotsException.class)
        .hasMessageContaining("more than 100 times its size");

    Path nested = folder.resolve("nested.kmz");
    try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(nested))) {
      zip.putNextEntry(new ZipEntry("../../evil.kml"));
      zip.write('x');
    }
    assertThatThrownBy(() -> SpotReader.read(nested)).hasMessageContaining(".kml at its root");
  }

  @Test
  void aKmzIsReadAsItsKml() throws Exception {
    Path kmz = folder.resolve("good.kmz");
    try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(kmz))) {
      zip.putNextEntry(new ZipEntry("images/a.png"));
      zip.write(1);
      zip.putNextEntry(new ZipEntry("doc.kml"));
      zip.write(
          "<kml><Placemark><name>A</name><Point><coordinates>2,1,7</coordinates></Point></Placemark></kml>"
              .getBytes(StandardCharsets.UTF_8));
    }
    assertThat(SpotReader.read(kmz).found().get(0).spot().position()).isEqualTo(new GeoPoint(1, 2));
  }

  @Test
  void aFileThatIsTooLargeIsNotRead() throws Exception {
    Path large = folder.resolve("large.geojson");
    try (OutputStream out = Files.newOutputStream(large)) {
      for (int megabyte = 0; megabyte < 33; megabyte++) {
        out.write(new byte[1 << 20]);
      }
    }
    assertThatThrownBy(() -> SpotReader.read(large)).hasMessageContaining("expected at most 32 MB");
  }

  @Test
  void tooManyFeaturesAreRefused() {
    assertThatThrownBy(() -> read("<gpx>" + "<wpt/>".repeat(100_001) + "</gpx>"))
        .hasMessageContaining("more than 100000 features");
  }

  /** A GeoPackage of one good layer, and whatever else. */
  private Path packageWith(String... statements) throws SQLException, IOException {
    Path file = folder.resolve("foreign.gpkg");
    SpotPackage.write(
        file,
        List.of(
            new ExchangedSpot(
                "Good",
                null,
                new GeoPoint(1, 2),
                null,
                false,
                List.of(),
                Set.of(),
                Set.of(),
                "",
                "")),
        Instant.EPOCH);
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file.toUri());
        Statement statement = connection.createStatement()) {
      for (String sql : statements) {
        statement.execute(sql);
      }
    }
    return file;
  }

  private static final String ANOTHER =
      "INSERT INTO gpkg_contents (table_name, data_type, srs_id) VALUES ('x', 'features', 4326)";
  private static final String ANOTHER_GEOMETRY =
      "INSERT INTO gpkg_geometry_columns VALUES ('x', 'geom', 'POINT', 4326, 0, 0)";

  /** The layer is no longer a ledger's, so that all of its neighbours are looked at. */
  private static final String ANYBODYS = "ALTER TABLE spots DROP COLUMN cautions";

  @Test
  void viewsAndVirtualTablesAreNotRead() throws Exception {
    Path file =
        packageWith(
            ANYBODYS,
            "CREATE VIEW x AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n)"
                + " SELECT (SELECT geom FROM spots) AS geom, i AS name FROM n",
            ANOTHER,
            ANOTHER_GEOMETRY);
    SpotFile read = ForeignPackage.read(file);

    assertThat(read.found()).hasSize(1);
    assertThat(read.remarks()).anyMatch(line -> line.contains("found a view or something else"));
  }

  @Test
  void aTableOfContentsThatIsAViewIsRefused() throws Exception {
    Path file =
        packageWith(
            "ALTER TABLE gpkg_contents RENAME TO c",
            "CREATE VIEW gpkg_contents AS SELECT * FROM c");
    assertThatThrownBy(() -> ForeignPackage.read(file))
        .isInstanceOf(UnreadableSpotsException.class)
        .hasMessageContaining("without the table gpkg_contents");
  }

  @Test
  void whatATriggerOrAGeneratedColumnWouldDoIsNotDone() throws Exception {
    Path file =
        packageWith(
            ANYBODYS,
            "CREATE TRIGGER t AFTER UPDATE ON spots BEGIN DELETE FROM spots; END",
            "ALTER TABLE spots ADD COLUMN area2 TEXT AS (hex(zeroblob(900000000))) VIRTUAL",
            "ALTER TABLE spots ADD COLUMN title TEXT AS (hex(zeroblob(900000000))) VIRTUAL");
    byte[] before = Files.readAllBytes(file);
    long start = System.nanoTime();

    assertThat(ForeignPackage.read(file).found()).hasSize(1);
    assertThat(Duration.ofNanos(System.nanoTime() - start)).isLessThan(SOON);
    assertThat(Files.readAllBytes(file)).isEqualTo(before);
    try (var files = Files.list(folder)) {
      assertThat(files).as("no log beside it").containsExactly(file);
    }
  }

  @Test
  void aLayerNamedToBreakOutOfAStatementIsAName() throws Exception {
    String name = "x\"; DROP TABLE spots; --";
    Path file =
        packageWith(
            ANYBODYS,
            "CREATE TABLE " + '"' + name.replace("\"", "\"\"") + '"' + " (geom POINT, name TEXT)",
            ANOTHER.replace("'x'", "'" + name + "'"),
            ANOTHER_GEOMETRY.replace("'x'", "'" + name + "'"));

    assertThat(ForeignPackage.read(file).found()).hasSize(1);
  }

  @Test
  void otherSystemsAndGeometriesAreRefusedWithWords() throws Exception {
    Path file =
        packageWith(
            ANYBODYS,
            "INSERT INTO gpkg_spatial_ref_sys VALUES ('ETRS89', 25829, 'EPSG', 25829, 'x', null)",
            "CREATE TABLE x (geom POINT)",
            ANOTHER,
            ANOTHER_GEOMETRY.replace("4326", "25829"),
            "INSERT INTO spots (geom, name, open, notes) VALUES (x'00', 'Bad', 0, '')");
    SpotFile read = ForeignPackage.read(file);

    assertThat(read.remarks()).anyMatch(line -> line.contains("found EPSG:25829; convert it"));
    assertThat(read.found()).hasSize(1);
    assertThat(read.problems()).singleElement().asString().startsWith("spots 2: expected a");
  }

  @Test
  void whatIsNoGeoPackageIsRefused() throws IOException {
    Path file = Files.writeString(folder.resolve("a.gpkg"), "SQLite format 3\0 and no more");
    assertThatThrownBy(() -> ForeignPackage.read(file))
        .isInstanceOf(UnreadableSpotsException.class)
        .hasMessageContaining("Expected a GeoPackage");
    assertThatThrownBy(() -> read("hello")).hasMessageContaining("found something else");
    assertThatThrownBy(() -> read("<html></html>")).hasMessageContaining("XML that is neither");
    assertThatThrownBy(() -> read("")).hasMessageContaining("found something else");
  }
}
