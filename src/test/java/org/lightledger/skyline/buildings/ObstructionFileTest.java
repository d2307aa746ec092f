package org.lightledger.skyline.buildings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.GeoPoint;
import org.lightledger.testing.Reference;

class ObstructionFileTest {
  private static final String SQUARE =
      "{\"type\":\"Polygon\",\"coordinates\":[[[16,48],[16.001,48],[16.001,48.001],[16,48.001],"
          + "[16,48]]]}";

  @TempDir Path folder;

  private ObstructionFile.Read read(String... features) throws IOException {
    Path file = folder.resolve("town.geojson");
    Files.writeString(
        file, "{\"type\":\"FeatureCollection\",\"features\":[" + String.join(",", features) + "]}");
    return ObstructionFile.read(file);
  }

  private static String feature(String properties, String geometry) {
    return "{\"type\":\"Feature\",\"id\":7,\"properties\":{"
        + properties
        + "},\"geometry\":"
        + geometry
        + "}";
  }

  private Obstruction one(String properties) throws IOException {
    ObstructionFile.Read read = read(feature(properties, SQUARE));
    assertThat(read.problems()).isEmpty();
    return read.obstructions().get(0);
  }

  @Test
  void heightsAndTheirSources() throws IOException {
    assertThat(one("\"height\": 12.5").heightM()).isEqualTo(12.5);
    assertThat(one("\"height\": \"12.5 m\"").heightM()).isEqualTo(12.5);
    assertThat(one("\"height\": \"100'\"").heightM()).isEqualTo(30.48, within(1e-9));
    assertThat(one("\"height_m\": 6.1, \"building:levels\": 9").heightM()).isEqualTo(6.1);
    Obstruction counted = one("\"building:levels\": \"4\"");
    assertThat(counted.heightM()).isEqualTo(12.0);
    assertThat(counted.heightSource()).isEqualTo(HeightSource.LEVELS);
    Obstruction assumed = one("\"building\": \"yes\"");
    assertThat(assumed.heightM()).isEqualTo(6.0);
    assertThat(assumed.heightSource()).isEqualTo(HeightSource.ASSUMED);
    assertThat(one("\"height\": 15.9, \"min_height\": \"11.2\"").minHeightM()).isEqualTo(11.2);
    assertThat(one("\"height\": 15.9, \"building:min_level\": 2").minHeightM()).isEqualTo(6.0);
    assertThat(one("\"height\": 3, \"ground_z_m\": -0.1").groundM()).isEqualTo(-0.1);
    assertThat(one("\"height\": 3").groundM()).isNull();
  }

  @Test
  void kindsAndNames() throws IOException {
    assertThat(one("\"kind\": \"wood\"").kind()).isEqualTo(ObstructionKind.WOOD);
    assertThat(one("\"natural\": \"wood\"").kind()).isEqualTo(ObstructionKind.WOOD);
    assertThat(one("\"landuse\": \"forest\"").kind()).isEqualTo(ObstructionKind.WOOD);
    assertThat(one("\"building\": \"yes\"").kind()).isEqualTo(ObstructionKind.BUILDING);
    assertThat(one("\"name\": \"Old church\", \"id\": 3").id()).isEqualTo("Old church");
    assertThat(one("\"id\": 3").id()).isEqualTo("3");
    assertThat(one("\"building\": \"yes\"").id()).isEqualTo("7");
  }

  /** A row of 8 metres' width along a meridian, 111 metres long, is seen 8 metres wide. */
  @Test
  void treeRowsGetTheirWidth() throws IOException {
    String line = "{\"type\":\"LineString\",\"coordinates\":[[16.001,48],[16.001,48.001]]}";
    Obstruction row = read(feature("\"height\": 9, \"width\": 8", line)).obstructions().get(0);
    BuildingHorizon horizon =
        Obstructions.of(java.util.List.of(row), null)
            .around(new GeoPoint(48.0005, 16.0), BuildingOptions.STANDARD);

    assertThat(row.kind()).isEqualTo(ObstructionKind.TREE_ROW);
    // 0.001 degrees of longitude are 74.6 metres at 48 degrees; four metres of crown come first.
    assertThat(horizon.distanceM(180)).isEqualTo(70.6, within(0.1));
    assertThat(horizon.obstruction(540)).isEmpty();
  }

  @Test
  void aBadFeatureIsALineInTheReport() throws IOException {
    ObstructionFile.Read read =
        read(
            feature("\"height\": 5", SQUARE),
            feature("\"height\": \"tall\"", SQUARE),
            feature("\"height\": 1200", SQUARE),
            feature("\"height\": -3", SQUARE),
            feature("\"height\": 5, \"min_height\": 6", SQUARE),
            feature("\"kind\": \"cloud\"", SQUARE),
            feature("\"height\": 5", "{\"type\":\"Point\",\"coordinates\":[16,48]}"),
            feature("\"height\": 5", "{\"type\":\"Polygon\",\"coordinates\":[[[16,48],[16,49]]]}"),
            feature(
                "\"height\": 5",
                "{\"type\":\"Polygon\",\"coordinates\":[[[48,116],[48,117],[49,117],[48,116]]]}"),
            feature("\"height\": 5", "null"));

    assertThat(read.obstructions()).hasSize(1);
    assertThat(read.problems())
        .hasSize(9)
        .contains(
            "town.geojson: feature 2 (7): expected height as metres such as 12.5, found \"tall\"")
        .contains(
            "town.geojson: feature 3 (7): expected 0 <= min_height < height <= 1000 metres, found"
                + " 0.0 and 1200.0")
        .contains(
            "town.geojson: feature 6 (7): expected kind building, tree_row or wood, found"
                + " \"cloud\"")
        .contains("town.geojson: feature 8 (7): expected at least 4 positions, found 2")
        .contains(
            "town.geojson: feature 9 (7): expected a latitude in [-90, 90] degrees, found 116.0");
  }

  @Test
  void whatIsNoFeatureCollectionIsRefused() throws IOException {
    Path text = Files.writeString(folder.resolve("a.geojson"), "hello");
    Path other = Files.writeString(folder.resolve("b.geojson"), "{\"type\":\"Feature\"}");

    assertThatThrownBy(() -> ObstructionFile.read(text))
        .hasMessage(
            "a.geojson: expected GeoJSON, found something else near line 1; export it again");
    assertThatThrownBy(() -> ObstructionFile.read(other))
        .hasMessage("b.geojson: expected a GeoJSON FeatureCollection, found type \"Feature\"");
  }

  @Test
  void realFootprints() throws IOException {
    ObstructionFile.Read delft =
        ObstructionFile.read(Reference.path("extract/delft-footprints.geojson"));
    ObstructionFile.Read zurich =
        ObstructionFile.read(Reference.path("extract/zurich_subset_lod2-footprints.geojson"));

    assertThat(delft.obstructions().size() + delft.problems().size()).isEqualTo(158);
    assertThat(zurich.obstructions().size() + zurich.problems().size()).isEqualTo(76);
    assertThat(delft.problems()).isEmpty();
    assertThat(zurich.problems()).isEmpty();
    assertThat(delft.obstructions())
        .allSatisfy(house -> assertThat(house.heightSource()).isEqualTo(HeightSource.GIVEN));
  }
}
