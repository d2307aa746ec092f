package org.lightledger.session.drive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.session.drive.roads.GraphRoads;
import org.lightledger.testing.Reference;

/** Routes on the streets of a real town. */
class GraphRoadsTest {
  private static final String KREMS = "b".repeat(64);

  @TempDir static Path ledger;
  private static GraphRoads roads;
  private static PlainStreets streets;

  @BeforeAll
  static void prepare() throws Exception {
    Path extract = Reference.path("extract/krems.osm.gz");
    GraphRoads.prepare(extract, KREMS, ledger);
    roads = GraphRoads.open(ledger, KREMS).orElseThrow();
    streets = PlainStreets.read(extract);
  }

  @AfterAll
  static void close() {
    if (roads != null) {
      roads.close();
    }
  }

  @Test
  void aRouteIsNeitherShorterThanTheStreetsAllowNorFasterThanAMotorway() {
    int found = 0;
    for (GeoPoint[] pair : pairs(60)) {
      if (roads.between(pair[0], pair[1]) instanceof Roads.Route.Found route) {
        found++;
        double besideM = route.fromRoadM() + route.toRoadM();
        assertThat(route.distanceM() + besideM)
            .isGreaterThanOrEqualTo(Geodesy.distanceM(pair[0], pair[1]) * 0.998);
        assertThat(route.durationS()).isGreaterThan(route.distanceM() / (140 / 3.6));
      }
    }
    assertThat(found).isGreaterThan(40);
  }

  /** The peer knows one-way streets but no closed roads, so it may only be shorter. */
  @Test
  void aRouteIsAtLeastAsLongAsTheShortestWayOverTheStreets() {
    int compared = 0;
    double sumM = 0;
    double peerM = 0;
    for (PlainStreets.Pair pair : streets.pairs(40, new Random(3))) {
      if (roads.between(pair.from(), pair.to()) instanceof Roads.Route.Found route
          && route.fromRoadM() < 1
          && route.toRoadM() < 1) {
        compared++;
        sumM += route.distanceM();
        peerM += pair.shortestM();
        assertThat(route.distanceM()).isGreaterThanOrEqualTo(pair.shortestM() * 0.995 - 2);
      }
    }
    assertThat(compared).isGreaterThan(20);
    assertThat(sumM / peerM).isBetween(1.0, 1.6);
  }

  @Test
  void aDetourIsNeverFasterAndTheWayBackMayDiffer() {
    int oneWay = 0;
    List<GeoPoint[]> pairs = pairs(40);
    for (int i = 0; i + 1 < pairs.size(); i++) {
      GeoPoint from = pairs.get(i)[0];
      GeoPoint over = pairs.get(i)[1];
      GeoPoint to = pairs.get(i + 1)[0];
      if (roads.between(from, to) instanceof Roads.Route.Found straight
          && roads.between(from, over) instanceof Roads.Route.Found first
          && roads.between(over, to) instanceof Roads.Route.Found second
          && roads.between(to, from) instanceof Roads.Route.Found back) {
        assertThat(weight(straight)).isLessThanOrEqualTo(weight(first) + weight(second) + 5);
        oneWay += Math.abs(straight.distanceM() - back.distanceM()) > 20 ? 1 : 0;
      }
    }
    assertThat(oneWay).isPositive();
  }

  @Test
  void aPlaceFarFromAnyRoadIsEstimatedWithTheReason() {
    Drives drives = new Drives(Map.of(), List.of(roads));
    GeoPoint far = new GeoPoint(48.60, 15.60);
    Drive drive = drives.between(new Place(1, pairs(1).get(0)[0]), new Place(2, far));

    assertThat(drive.source()).isEqualTo(DriveSource.ESTIMATED);
    assertThat(drive.reason()).contains("from any road for cars");
  }

  @Test
  void roadsArePreparedOnceAndAreGoneWhenRemoved() throws IOException {
    String other = "c".repeat(64);
    Path extract = Reference.path("extract/monaco.osm.gz");
    GraphRoads.prepare(extract, other, ledger);
    Path nowhere = ledger.resolve("no-such-file.osm.pbf");
    GraphRoads.prepare(nowhere, other, ledger);
    try (GraphRoads monaco = GraphRoads.open(ledger, other).orElseThrow()) {
      assertThat(monaco.between(new GeoPoint(43.7396, 7.4272), new GeoPoint(43.7315, 7.4143)))
          .isInstanceOf(Roads.Route.Found.class);
    }
    GraphRoads.remove(ledger, other);
    assertThat(GraphRoads.open(ledger, other)).isEmpty();
    assertThatThrownBy(() -> GraphRoads.prepare(nowhere, other, ledger))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("no-such-file.osm.pbf");
    assertThat(GraphRoads.open(ledger, other)).isEmpty();
    assertThat(Files.exists(ledger.resolve("roads").resolve(other + "-1"))).isFalse();
  }

  @Test
  void thePackedFormOfTheSameStreetsGivesTheSameRoutes() throws Exception {
    Path osmium = Path.of("/usr/bin/osmium");
    assumeTrue(Files.isExecutable(osmium), "osmium is not installed");
    Path pbf = ledger.resolve("krems.osm.pbf");
    Process made =
        new ProcessBuilder(
                osmium.toString(),
                "cat",
                "-o",
                pbf.toString(),
                Reference.path("extract/krems.osm.gz").toString())
            .inheritIO()
            .start();
    assertThat(made.waitFor()).isZero();
    String packed = "d".repeat(64);
    GraphRoads.prepare(pbf, packed, ledger);
    try (GraphRoads same = GraphRoads.open(ledger, packed).orElseThrow()) {
      for (GeoPoint[] pair : pairs(20)) {
        assertThat(same.between(pair[0], pair[1])).isEqualTo(roads.between(pair[0], pair[1]));
      }
    }
  }

  /** By what the fastest route is chosen: its seconds, and 90 more for each kilometre. */
  private static double weight(Roads.Route.Found route) {
    return route.durationS() + 90 * route.distanceM() / 1000;
  }

  private static List<GeoPoint[]> pairs(int count) {
    Random random = new Random(11);
    List<GeoPoint[]> pairs = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      pairs.add(new GeoPoint[] {streets.junction(random), streets.junction(random)});
    }
    return pairs;
  }
}
