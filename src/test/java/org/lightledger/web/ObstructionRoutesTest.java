package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.skyline.buildings.HeightSource;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.skyline.buildings.ObstructionKind;
import org.lightledger.store.StoredObstruction;

/** Drawing by hand and the shadows on the ground, over HTTP and a real ledger. */
class ObstructionRoutesTest {
  private static final String HOME = "/surroundings/obstructions";

  /** A house of some 20 by 20 metres, from 20 m south of the first spot. */
  private static final String HOUSE =
      "41.949820,-6.610120\n41.949820,-6.609880\n41.949640,-6.609880\n41.949640,-6.610120";

  private static final String BOX = "41.9490,-6.6115,41.9510,-6.6085";

  @TempDir Path folder;
  private TestSite site;

  @BeforeEach
  void open() {
    site = new TestSite(folder).withPhotos();
  }

  @AfterEach
  void close() {
    site.close();
  }

  private List<StoredObstruction> drawn() {
    return site.ledger().read(session -> session.obstructions().ofOwner());
  }

  private Obstruction only() {
    assertThat(drawn()).hasSize(1);
    return drawn().get(0).obstruction();
  }

  private TestSite.Answer draw(
      String path, String name, String kind, String shape, String corners, String height) {
    return site.post(
        path, "name", name, "kind", kind, "shape", shape, "corners", corners, "height", height,
        "width", "8");
  }

  private void drawHouse(String height) {
    assertThat(draw(HOME + "?spot=1", "Mill house", "building", "outline", HOUSE, height).status())
        .isEqualTo(303);
  }

  private JsonNode shadows(String query) {
    try {
      return new ObjectMapper().readTree(site.get("/surroundings/shadows?" + query).text());
    } catch (JsonProcessingException e) {
      throw new AssertionError("the answer is no JSON", e);
    }
  }

  @Test
  void whatIsDrawnStandsInTheSkylineAtOnce() {
    TestSite.Answer answer =
        draw(HOME + "?spot=1", "Mill house", "building", "outline", HOUSE, "12,5");

    assertThat(answer.header("Location")).isEqualTo(HOME + "?spot=1&did=added#drawn");
    assertThat(only().id()).isEqualTo("Mill house");
    assertThat(only().heightM()).isEqualTo(12.5);
    assertThat(only().heightSource()).isEqualTo(HeightSource.GIVEN);
    Skyline skyline =
        site.ledger().read(session -> session.skylines().find(1)).orElseThrow().skyline();
    int south = 360;
    assertThat(Skyline.azimuthDeg(south)).isEqualTo(180);
    assertThat(skyline.source(south)).isEqualTo(SkylineSource.BUILDING);
    double nearM =
        Geodesy.distanceM(
            site.ledger().read(session -> session.spots().find(1)).orElseThrow().position(),
            new GeoPoint(41.949820, -6.61));
    assertThat(skyline.altitudeDeg(south))
        .isCloseTo(Math.toDegrees(Math.atan(12.5 / nearM)), within(0.1));
    assertThat(site.get("/spots/1?day=2026-12-15").text())
        .contains("buildings in ", "class=\"sky-land")
        .contains("href=\"" + HOME + "?spot=1&amp;day=2026-12-15&amp;at=12:00\"");
    assertThat(site.get(HOME + "?spot=1&did=added").text())
        .contains("Added. The skylines", "Mill house", "building, 12.5 m high", "MultiPolygon");
  }

  @Test
  void aLineAndATreeGetTheirWidthAndAnUnknownHeightIsAssumedAndSaysSo() {
    draw(HOME, "Poplars", "tree-row", "line", "41.9510,-6.6110\n41.9510,-6.6100", "");
    draw(HOME, "Oak", "tree", "crown", "41.9512,-6.6105", "");
    Obstruction row = drawn().get(0).obstruction();
    Obstruction oak = drawn().get(1).obstruction();

    assertThat(row.kind()).isEqualTo(ObstructionKind.TREE_ROW);
    assertThat(row.heightSource()).isEqualTo(HeightSource.ASSUMED);
    assertThat(row.outline().getEnvelopeInternal().getHeight() * 111_200).isCloseTo(8, within(0.1));
    assertThat(oak.outline().getEnvelopeInternal().getHeight() * 111_200).isCloseTo(8, within(0.1));
    assertThat(site.get(HOME).text())
        .contains("tree row, 10 m high, which is assumed", "tree, 8 m high, which is assumed");
  }

  @Test
  void aChangeKeepsWhatWasNotTouchedAndARedrawnOutlineReplacesTheOld() {
    drawHouse("");
    long id = drawn().get(0).id();
    Obstruction before = only();
    String page = site.get(HOME + "/" + id).text();
    assertThat(page).contains("Change Mill house", "41.9498200,-6.6101200", "value=\"Mill house\"");

    String corners = page.substring(page.indexOf("-6.610000\">") + 11, page.indexOf("</textarea>"));
    draw(HOME + "/" + id, "Old mill", "building", "outline", corners, "");
    assertThat(only().id()).isEqualTo("Old mill");
    assertThat(only().heightSource()).isEqualTo(HeightSource.ASSUMED);
    assertThat(only().outline().equalsExact(before.outline())).isTrue();

    draw(HOME + "/" + id, "Old mill", "building", "line", "41.95,-6.61\n41.951,-6.61", "4");
    assertThat(only().heightM()).isEqualTo(4);
    assertThat(only().outline().getEnvelopeInternal().getMaxY()).isCloseTo(41.951, within(1e-6));
    assertThat(site.post(HOME + "/" + id + "/remove").header("Location"))
        .isEqualTo(HOME + "?did=removed#drawn");
    assertThat(drawn()).isEmpty();
    assertThat(site.get(HOME + "/" + id).status()).isEqualTo(404);
    assertThat(site.post(HOME + "/" + id + "/remove").status()).isEqualTo(404);
  }

  @Test
  void badDrawingsTeachAndWhatWasTypedStays() {
    TestSite.Answer bad = draw(HOME, "", "castle", "outline", "41.95,-6.61\nnorth", "tall");

    assertThat(bad.status()).isEqualTo(422);
    assertThat(bad.text())
        .contains("4 fields need another look", "href=\"#f-corners\"")
        .contains("expected building, tree, tree-row or wood, found \"castle\"")
        .contains("such as 41.95,-6.61 in line 2, found \"north\"", "found \"tall\"")
        .contains("41.95,-6.61\nnorth</textarea>");
    assertThat(draw(HOME, "a", "wood", "outline", "41.95,-6.61\n41.95,-6.60", "9").text())
        .contains("expected at least 3 corners of an outline, found 2");
    assertThat(draw(HOME, "a", "wood", "line", "", "9").text())
        .contains("expected at least 2 corners of a line, found 0");
    assertThat(draw(HOME, "a", "tree", "crown", "", "9").text())
        .contains("expected one place for one tree, found 0");
    assertThat(draw(HOME, "a", "wood", "outline", "1,1\n1.001,1.001\n1.001,1\n1,1.001", "9").text())
        .contains("whose sides neither cross nor fold back");
    assertThat(draw(HOME, "a", "wood", "line", "41.95,-6.61\n-6.61,41.95", "9").text())
        .contains("km from there; latitude comes first");
    assertThat(draw(HOME, "a", "wood", "circle", "1,1", "9").text())
        .contains("expected outline, line or crown, found \"circle\"");
    assertThat(drawn()).isEmpty();
  }

  @Test
  void aFileIsTakenInOnceAndItsBadFeaturesAreNamed() {
    byte[] file =
        """
        {"type": "FeatureCollection", "features": [
          {"type": "Feature", "properties": {"name": "Hall", "height": 9},
           "geometry": {"type": "Polygon", "coordinates":
             [[[-6.61, 41.952], [-6.609, 41.952], [-6.609, 41.953], [-6.61, 41.952]]]}},
          {"type": "Feature", "properties": {"name": "Bow tie", "height": 9},
           "geometry": {"type": "Polygon", "coordinates":
             [[[0, 0], [0.001, 0.001], [0.001, 0], [0, 0.001], [0, 0]]]}},
          {"type": "Feature", "properties": {"name": "Dot"},
           "geometry": {"type": "Point", "coordinates": [0, 0]}}]}
        """
            .getBytes(StandardCharsets.UTF_8);
    TestSite.Answer first = site.postFile(HOME + "/file", "file", file);

    assertThat(first.status()).isEqualTo(200);
    assertThat(first.text())
        .contains("1 was added from the file.", "&#34;Bow tie&#34;: expected an outline")
        .contains("feature 3 (Dot): expected a Polygon");
    assertThat(only().id()).isEqualTo("Hall");
    assertThat(site.postFile(HOME + "/file", "file", file).text())
        .contains("0 were added from the file; 1 was known already.");
    assertThat(drawn()).hasSize(1);
    TestSite.Answer bad =
        site.postFile(HOME + "/file", "file", "not json".getBytes(StandardCharsets.UTF_8));
    assertThat(bad.status()).isEqualTo(422);
    assertThat(bad.text()).contains("expected GeoJSON, found something else near line 1");
    assertThat(site.postFile(HOME + "/file", "other", file).text())
        .contains("expected a GeoJSON file, found nothing");
  }

  @Test
  void theShadowOfADrawnHouseLiesAwayFromTheSunAndTakesTheSpotIn() {
    drawHouse("12");
    JsonNode noon = shadows("day=2026-12-15&at=13:30&box=" + BOX);
    String words = noon.path("words").asText();
    double northDeg = -90;
    double southDeg = 90;
    for (JsonNode polygon : noon.at("/features/0/geometry/coordinates")) {
      for (JsonNode position : polygon.path(0)) {
        northDeg = Math.max(northDeg, position.path(1).asDouble());
        southDeg = Math.min(southDeg, position.path(1).asDouble());
      }
    }

    assertThat(words).contains("At 13:30 on Tue 15 Dec 2026 (Europe/Madrid) the sun stands at S");
    assertThat(words).contains("1 building or tree was looked at.");
    assertThat(words).contains("In the shadow: " + spotName(1) + ".");
    assertThat(southDeg).isCloseTo(41.949640, within(1e-6));
    double lengthM = (northDeg - 41.949820) * 111_200;
    assertThat(lengthM).isCloseTo(12 / Math.tan(Math.toRadians(24.8)), within(1.0));
    assertThat(site.get(HOME + "?spot=1&day=2026-12-15&at=13:30").text())
        .contains("In the shadow: " + spotName(1));
  }

  private String spotName(long id) {
    return site.ledger().read(session -> session.spots().find(id)).orElseThrow().name();
  }

  @Test
  void aSunThatIsDownOrVeryLowIsTold() {
    drawHouse("40");

    JsonNode night = shadows("day=2026-12-15&at=07:00&box=" + BOX);
    assertThat(night.path("features")).isEmpty();
    assertThat(night.path("words").asText()).contains("the sun is not up", "below the horizon");
    assertThat(shadows("day=2026-12-15&at=17:54&box=" + BOX).path("words").asText())
        .contains("longer than 2 km: it is cut there");
    assertThat(shadows("day=2026-06-21&at=14:00&box=" + BOX).path("words").asText())
        .doesNotContain("cut there");
  }

  @Test
  void whatCanNotBeShownTeaches() {
    assertThat(site.get("/surroundings/shadows?day=2026-12-15&at=13:30&box=41,-7,42,-6").status())
        .isEqualTo(422);
    assertThat(shadows("day=2026-12-15&at=13:30&box=41,-7,42,-6").path("words").asText())
        .contains("at most 2 km from side to side; now it shows 111.1 km. Zoom in.");
    assertThat(shadows("day=2026-12-15&at=13:30&box=-80,-180,80,180").path("words").asText())
        .contains("it shows far more");
    assertThat(shadows("day=2026-12-15&at=13:30&box=1,1,1,1").path("words").asText())
        .contains("a width and a height");
    assertThat(shadows("day=2026-12-15&at=13:30&box=here").path("words").asText())
        .contains("expected south,west,north,east in degrees");
    assertThat(shadows("box=" + BOX).path("words").asText())
        .contains("Day: expected a day such as 2026-12-15, found nothing.", "Hour: expected");
    assertThat(shadows("day=2026-03-29&at=02:30&box=" + BOX).path("words").asText())
        .contains("clocks of Europe/Madrid");
    assertThat(site.get(HOME + "?day=soon&at=13:30").status()).isEqualTo(422);
  }

  @Test
  void theExposureSuggestsBesideTheTapAndChoosesNothing() {
    String page = site.get("/shots/1").text();

    assertThat(page)
        .containsPattern(
            "The exposure suggests: <strong>(direct sun|shade|can&#39;t tell)</strong>")
        .containsPattern("EV100 [0-9.]+; expected are [0-9.]+ in direct sun and [0-9.]+ in open")
        .containsPattern("id=\"sun-1-unsaid\"[^>]+aria-pressed=\"true\"")
        .doesNotContainPattern("id=\"sun-1-(yes|no)\"[^>]+aria-pressed=\"true\"");
    assertThat(site.post("/shots/1/sun?word=no", List.of("HX-Request", "true")).text())
        .contains("The exposure suggests");
    long withoutDirection = site.shotOf(folder.resolve("photos/3-arcade.jpg"));
    assertThat(site.get("/shots/" + withoutDirection).text()).doesNotContain("exposure suggests");
  }
}
