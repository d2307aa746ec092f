package org.lightledger.map.osm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.map.FeatureKind;
import org.lightledger.map.MapBox;
import org.lightledger.map.MapObstruction;
import org.lightledger.skyline.buildings.HeightSource;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.skyline.buildings.ObstructionKind;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;

/** What small extracts become. */
class OsmExtractTest {
  @TempDir Path folder;
  private final Xml xml = new Xml();
  private List<String> problems = List.of();

  private Shown read() throws IOException {
    OsmExtract extract = OsmExtract.read(xml.write(folder));
    Shown shown = Shown.of(extract);
    problems = extract.problems();
    assertThat(extract.problemCount()).isEqualTo(problems.size());
    return shown;
  }

  @Test
  void aHouseHasItsHeightItsNameAndItsNumber() throws IOException {
    xml.square(5, 48.0, 16.0, 0.001, "building=yes", "height=12", "name=Old \"Mill\" & Barn");
    MapObstruction house = read().obstruction("way/5");

    assertThat(house.name()).isEqualTo("Old \"Mill\" & Barn");
    assertThat(house.obstruction().kind()).isEqualTo(ObstructionKind.BUILDING);
    assertThat(house.obstruction().heightM()).isEqualTo(12.0);
    assertThat(house.obstruction().heightSource()).isEqualTo(HeightSource.GIVEN);
    assertThat(MapBox.around(house.obstruction().outline()))
        .isEqualTo(new MapBox(15.9995, 47.9995, 16.0005, 48.0005));
    assertThat(problems).isEmpty();
  }

  @Test
  void whatIsNoBuildingIsNone() throws IOException {
    xml.square(1, 48.0, 16.0, 0.001, "building=no")
        .square(2, 48.0, 16.01, 0.001, "building=yes", "location=underground")
        .square(3, 48.0, 16.02, 0.001, "building=yes");

    assertThat(read().obstructions)
        .extracting(found -> found.obstruction().id())
        .containsExactly("way/3");
  }

  @Test
  void aWrongHeightIsToldWithItsNumberAndTheHouseIsStillThere() throws IOException {
    xml.square(7, 48.0, 16.0, 0.001, "building=yes", "height=high");

    assertThat(read().obstruction("way/7").obstruction().heightSource())
        .isEqualTo(HeightSource.ASSUMED);
    assertThat(problems)
        .containsExactly("way/7: expected height as metres such as 12.5, found \"high\"");
  }

  @Test
  void aMultipolygonHasItsHolesWhateverTheRolesSay() throws IOException {
    long[] outer = xml.squareNodes(48.0, 16.0, 0.004);
    xml.way(1, new long[] {outer[0], outer[1], outer[2]})
        .way(2, new long[] {outer[0], outer[3], outer[2]})
        .square(3, 48.0, 16.0, 0.002)
        .square(4, 48.0, 16.0, 0.001)
        .multipolygon(9, new String[] {"outer 1", "outer 2", "outer 3", "inner 4"}, "building=yes");
    Geometry outline = read().obstruction("relation/9").obstruction().outline();

    assertThat(outline.getNumGeometries()).as("a house in the court of a house").isEqualTo(2);
    assertThat(outline.getArea()).isCloseTo((16.0 - 4.0 + 1.0) * 1e-6, within(1e-12));
    assertThat(problems).isEmpty();
  }

  @Test
  void theOuterWaysTagsCountOnceWhereTheRelationHasNone() throws IOException {
    xml.square(1, 48.0, 16.0, 0.004, "building=yes", "height=9")
        .square(2, 48.0, 16.0, 0.002)
        .multipolygon(3, new String[] {"outer 1", "inner 2"});
    Shown shown = read();

    assertThat(shown.obstructions).hasSize(1);
    Obstruction house = shown.obstruction("relation/3").obstruction();
    assertThat(house.heightM()).isEqualTo(9.0);
    assertThat(((Polygon) house.outline()).getNumInteriorRing()).isEqualTo(1);
  }

  @Test
  void aWayThatARelationListsTwiceCountsOnce() throws IOException {
    long[] split = xml.squareNodes(48.0, 17.0, 0.004);
    xml.square(1, 48.0, 16.0, 0.004)
        .multipolygon(2, new String[] {"outer 1", "outer 1"}, "building=yes", "height=10")
        .way(3, new long[] {split[0], split[1], split[2]})
        .way(4, new long[] {split[2], split[3], split[0]})
        .multipolygon(5, new String[] {"outer 3", "outer 3", "outer 4"}, "building=yes");
    Shown shown = read();

    for (String id : List.of("relation/2", "relation/5")) {
      assertThat(shown.obstruction(id).obstruction().outline().getArea())
          .as(id)
          .isCloseTo(16e-6, within(1e-12));
    }
    assertThat(problems).isEmpty();
  }

  @Test
  void aRingThatTwoWaysDrawIsNoHoleInItself() throws IOException {
    long[] nodes = xml.squareNodes(48.0, 16.0, 0.004);
    long[] turned = {nodes[2], nodes[1], nodes[0], nodes[3], nodes[2]};
    xml.way(1, nodes)
        .way(2, turned)
        .square(3, 48.0, 16.01, 0.004)
        .multipolygon(4, new String[] {"outer 1", "outer 2", "outer 3"}, "building=yes");

    assertThat(read().obstruction("relation/4").obstruction().outline().getArea())
        .isCloseTo(32e-6, within(1e-12));
  }

  @Test
  void aRelationWhoseRingsEncloseNothingIsTold() throws IOException {
    long a = xml.node(48.0, 16.0);
    long b = xml.node(48.001, 16.0);
    xml.way(1, new long[] {a, b, a, b, a})
        .way(2, new long[] {a})
        .multipolygon(3, new String[] {"outer 1"}, "building=yes")
        .multipolygon(4, new String[] {"outer 2"}, "natural=water");

    assertThat(read().obstructions).isEmpty();
    assertThat(problems)
        .containsExactly(
            "relation/3: expected rings that enclose an area, found none; it is left out",
            "relation/4: expected rings that enclose an area, found none; it is left out");
  }

  @Test
  void aCourtStaysOpenWhereTheOuterWayRepeatsItsRelation() throws IOException {
    xml.square(1, 48.0, 16.0, 0.004, "building=yes", "height=12")
        .square(2, 48.0, 16.0, 0.002)
        .multipolygon(3, new String[] {"outer 1", "inner 2"}, "building=yes", "height=10")
        .square(4, 48.0, 17.0, 0.004, "natural=wood")
        .square(5, 48.0, 17.0, 0.002, "natural=wood")
        .multipolygon(6, new String[] {"outer 4", "inner 5"}, "landuse=forest");
    Shown shown = read();

    assertThat(shown.obstructions)
        .extracting(found -> found.obstruction().id())
        .as("the inner way is a thing of its own")
        .containsExactlyInAnyOrder("relation/3", "way/5", "relation/6");
    Obstruction house = shown.obstruction("relation/3").obstruction();
    assertThat(house.heightM()).as("the relation's word").isEqualTo(10.0);
    assertThat(((Polygon) house.outline()).getNumInteriorRing()).isEqualTo(1);
  }

  @Test
  void whatOnlyTheRepeatingWaySaysIsTheRelations() throws IOException {
    xml.square(1, 48.0, 16.0, 0.004, "building=yes", "height=12", "name=Of the way")
        .square(2, 48.0, 16.0, 0.002)
        .multipolygon(3, new String[] {"outer 1", "inner 2"}, "building=yes", "name=Abbey")
        .square(4, 48.0, 17.0, 0.004, "building=yes", "min_height=3", "name=Mill")
        .square(5, 48.0, 17.0, 0.002)
        .multipolygon(6, new String[] {"outer 4", "inner 5"}, "building=yes", "height=9");
    Shown shown = read();

    assertThat(shown.obstructions).hasSize(2);
    assertThat(shown.obstruction("relation/6").name()).isEqualTo("Mill");
    assertThat(shown.obstruction("relation/6").obstruction().minHeightM()).isZero();
    assertThat(shown.obstruction("relation/3").name()).isEqualTo("Abbey");
    assertThat(shown.obstruction("relation/3").obstruction().heightM()).isEqualTo(12.0);
  }

  @Test
  void anOuterWayThatIsSomethingElseIsStillThere() throws IOException {
    xml.square(1, 48.0, 16.0, 0.004, "natural=water")
        .square(2, 48.0, 16.0, 0.002)
        .multipolygon(3, new String[] {"outer 1", "inner 2"}, "landuse=forest")
        .square(4, 48.0, 17.0, 0.004, "building:part=yes", "height=9")
        .square(5, 48.0, 17.0, 0.002)
        .multipolygon(6, new String[] {"outer 4", "inner 5"}, "building=yes", "height=9");
    Shown shown = read();

    assertThat(shown.feature("way/1").kind()).isEqualTo(FeatureKind.WATER);
    assertThat(shown.obstruction("way/4").obstruction().heightM()).isEqualTo(9.0);
  }

  @Test
  void everyOuterWayThatRepeatsTheTagsIsSpent() throws IOException {
    long[] nodes = xml.squareNodes(48.0, 16.0, 0.004);
    xml.way(1, new long[] {nodes[0], nodes[1], nodes[2]}, "building=yes")
        .way(2, new long[] {nodes[2], nodes[3], nodes[0]}, "building=yes")
        .square(3, 48.0, 16.01, 0.004, "building=yes")
        .square(4, 48.0, 16.01, 0.002)
        .multipolygon(5, new String[] {"outer 1", "outer 2", "outer 3", "inner 4"});
    Shown shown = read();

    assertThat(shown.obstructions)
        .extracting(found -> found.obstruction().id())
        .containsExactly("relation/5");
    assertThat(problems).isEmpty();
  }

  @Test
  void whatIsIncompleteIsTold() throws IOException {
    long[] nodes = xml.squareNodes(48.0, 16.0, 0.004);
    xml.way(1, new long[] {nodes[0], nodes[1], nodes[2]}, "highway=path")
        .way(2, new long[] {nodes[0], 777, nodes[1]}, "highway=path")
        .way(3, new long[] {888, 777}, "highway=path")
        .way(4, new long[] {nodes[0], nodes[1], nodes[2]}, "building=yes")
        .way(5, new long[] {nodes[0], nodes[1], nodes[1], nodes[0]}, "building=yes")
        .multipolygon(6, new String[] {"outer 1", "outer 99"}, "natural=water");
    Shown shown = read();

    assertThat(shown.count(FeatureKind.PATH)).isEqualTo(2);
    assertThat(shown.obstructions).isEmpty();
    assertThat(problems)
        .containsExactly(
            "relation/6: expected ways that close to rings, found 1 that do not and 1 that the file"
                + " lacks; it is left out",
            "way/2: expected all of its 3 nodes in the file, found 1 absent",
            "way/3: expected all of its 2 nodes in the file, found 2 absent",
            "way/3: expected at least two nodes in the file, found fewer; it is left out",
            "way/4: expected a way that ends where it starts, found an open one",
            "way/5: expected an area, found a line without width; it is left out");
  }

  @Test
  void aBuildingThatItsPartsFillIsDrawnAndItsPartsStandInTheWay() throws IOException {
    xml.square(1, 48.0, 16.0, 0.002, "building=yes", "height=40")
        .square(2, 48.0, 16.0, 0.002, "building:part=yes", "height=10")
        .square(3, 48.0, 16.0, 0.0005, "building:part=yes", "height=40", "min_height=10");
    Shown shown = read();

    assertThat(shown.feature("way/1").kind()).isEqualTo(FeatureKind.BUILDING_OUTLINE);
    assertThat(shown.obstructions)
        .extracting(found -> found.obstruction().heightM())
        .containsExactly(10.0, 40.0);
  }

  @Test
  void aBuildingStandsByItselfWhereItsPartsLeaveGapsOrAreHigherThanIt() throws IOException {
    xml.square(1, 48.0, 16.0, 0.002, "building=yes", "height=40")
        .square(2, 48.0, 16.0, 0.001, "building:part=yes", "height=40")
        .square(3, 48.0, 17.0, 0.002, "building=yes", "height=9")
        .square(4, 48.0, 17.0, 0.002, "building:part=yes", "height=40", "min_height=9");

    assertThat(read().obstructions).hasSize(4);
  }

  @Test
  void treesHaveTheirCrowns() throws IOException {
    xml.node(48.0, 16.0, "natural=tree", "height=7", "diameter_crown=4");
    long first = xml.node(48.0, 16.001);
    xml.way(2, new long[] {first, xml.node(48.001, 16.001)}, "natural=tree_row")
        .square(3, 48.0, 16.01, 0.002, "landuse=forest");
    Shown shown = read();

    MapBox crown = MapBox.around(shown.obstruction("node/1").obstruction().outline());
    assertThat((crown.northDeg() - crown.southDeg()) * 111_200.0).isCloseTo(4.0, within(1e-6));
    MapBox row = MapBox.around(shown.obstruction("way/2").obstruction().outline());
    assertThat((row.eastDeg() - row.westDeg()) * 111_200.0 * Math.cos(Math.toRadians(48.0005)))
        .isCloseTo(6.0, within(1e-6));
    assertThat(shown.obstruction("way/3").obstruction().kind()).isEqualTo(ObstructionKind.WOOD);
  }

  @Test
  void waysWaterGreenAndPlacesAreDrawn() throws IOException {
    long a = xml.node(48.0, 16.0, "place=village", "name=Aldea");
    long b = xml.node(48.0, 16.001, "amenity=toilets");
    xml.node(48.0, 16.002, "place=hamlet");
    long[] line = {a, b};
    xml.way(1, line, "highway=primary", "name=Main Street", "bridge=yes")
        .way(2, line, "highway=residential", "tunnel=building_passage")
        .way(3, line, "waterway=river", "name=Tera")
        .way(4, line, "railway=rail")
        .way(5, line, "highway=construction")
        .square(6, 48.0, 16.01, 0.001, "leisure=park", "name=Green")
        .square(7, 48.0, 16.02, 0.001, "natural=water")
        .square(8, 48.0, 16.03, 0.001, "landuse=meadow")
        .square(9, 48.0, 16.04, 0.001, "amenity=parking")
        .square(10, 48.0, 16.05, 0.001, "highway=footway")
        .square(11, 48.0, 16.06, 0.001, "highway=pedestrian", "area=yes")
        .square(12, 48.0, 16.07, 0.001, "building=yes", "amenity=toilets");
    Shown shown = read();

    assertThat(shown.feature("way/1").level()).isEqualTo(1);
    assertThat(shown.feature("way/1").name()).isEqualTo("Main Street");
    assertThat(shown.feature("way/2").level()).isEqualTo(-1);
    assertThat(shown.features)
        .extracting(found -> found.sourceId() + " " + found.kind())
        .containsExactlyInAnyOrder(
            "node/1 VILLAGE",
            "node/2 TOILETS",
            "way/1 MAJOR_ROAD",
            "way/2 MINOR_ROAD",
            "way/3 RIVER",
            "way/4 RAIL",
            "way/5 OTHER_WAY",
            "way/6 PARK",
            "way/7 WATER",
            "way/8 MEADOW",
            "way/9 PARKING",
            "way/10 PATH",
            "way/11 SQUARE",
            "way/12 TOILETS");
    assertThat(shown.obstructions).hasSize(1);
  }

  @Test
  void theSeaLiesToTheRightOfTheCoast() throws IOException {
    long[] coast = {xml.node(48.0, 15.9), xml.node(48.0, 16.0), xml.node(48.0, 16.1)};
    xml.root(
            "<osm version=\"0.6\"><bounds minlat=\"47.9\" minlon=\"15.95\" maxlat=\"48.1\""
                + " maxlon=\"16.05\"/>")
        .way(1, coast, "natural=coastline")
        .square(2, 47.95, 16.0, 0.01, "natural=coastline");
    Shown shown = read();

    assertThat(shown.count(FeatureKind.SEA)).isEqualTo(1);
    Geometry sea = shown.feature("sea/1").geometry();
    assertThat(sea.getEnvelopeInternal().getMaxY()).isEqualTo(48.0);
    assertThat(sea.getArea()).as("all but the island").isCloseTo(0.01 - 0.0001, within(1e-9));
    assertThat(problems).isEmpty();
  }

  @Test
  void aCoastThatEndsInsideIsTold() throws IOException {
    long[] coast = {xml.node(48.0, 15.99), xml.node(48.0, 16.1)};
    xml.root(
            "<osm version=\"0.6\"><bounds minlat=\"47.9\" minlon=\"15.95\" maxlat=\"48.1\""
                + " maxlon=\"16.05\"/>")
        .way(1, coast, "natural=coastline");

    assertThat(read().count(FeatureKind.SEA)).isEqualTo(1);
    assertThat(problems).singleElement().asString().startsWith("coastline: ").contains("1 ends");
  }

  @Test
  void theRegionAndTheLicenceAreTheFilesOwn() throws IOException {
    xml.root(
            "<osm version=\"0.6\" license=\"https://opendatacommons.org/licenses/odbl/1-0/\">"
                + "<bounds minlat=\"47.9\" minlon=\"15.9\" maxlat=\"48.1\" maxlon=\"16.1\"/>")
        .square(1, 48.0, 16.0, 0.001, "building=yes");
    OsmExtract extract = OsmExtract.read(xml.write(folder));

    assertThat(extract.bounds()).isEqualTo(new MapBox(15.9, 47.9, 16.1, 48.1));
    assertThat(extract.licence()).hasValue("https://opendatacommons.org/licenses/odbl/1-0/");
  }

  @Test
  void aByteOrderMarkIsNoContent() throws IOException {
    xml.square(1, 48.0, 16.0, 0.001, "building=yes", "name=Café");
    Path file = Files.writeString(folder.resolve("marked.osm"), "\uFEFF" + xml.text());

    assertThat(Shown.of(OsmExtract.read(file)).obstruction("way/1").name()).isEqualTo("Café");
  }

  @Test
  void whatAnEditorDeletedIsNotThere() throws IOException {
    xml.square(1, 48.0, 16.0, 0.001, "building=yes").square(2, 48.0, 16.1, 0.001, "building=yes");
    Path file = folder.resolve("edited.osm");
    Files.writeString(
        file, xml.text().replace("<way id=\"2\">", "<way id=\"2\" action=\"delete\">"));

    assertThat(Shown.of(OsmExtract.read(file)).obstructions).hasSize(1);
  }
}
