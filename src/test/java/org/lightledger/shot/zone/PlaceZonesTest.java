package org.lightledger.shot.zone;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestReporter;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.testing.Reference;

class PlaceZonesTest {
  private static final PlaceZones ZONES = new PlaceZones();
  private static final GeoPoint SANABRIA = new GeoPoint(42.05, -6.63);

  /** The rows of the reference where the answer is another, and why. */
  private static final Map<String, String> DIFFERENT =
      Map.of(
          "Z083",
          "Africa/Johannesburg|Antarctica/McMurdo|Antarctica/Troll: deep in Antarctica three claims"
              + " and station times overlap; the table names two",
          "Z122",
          "Asia/Shanghai|Asia/Urumqi: Xinjiang keeps two times, and the map shows both",
          "Z123",
          "Asia/Shanghai|Asia/Thimphu: claimed by both sides",
          "Z287",
          "Asia/Shanghai|Asia/Urumqi: Xinjiang keeps two times, and the map shows both");

  @Test
  void agreesWithTheReferenceButForTheNamedRows(TestReporter reporter) {
    Map<String, String> different = new LinkedHashMap<>();
    List<Map<String, String>> rows = Reference.csv("zones/points.csv");
    for (Map<String, String> row : rows) {
      ZonesAtPlace found = ZONES.zonesAt(point(row), 0);
      String names = names(found);
      if (!names.equals(row.get("expected_zone(s)"))) {
        different.put(row.get("id"), names);
      }
    }
    reporter.publishEntry(
        "zones", (rows.size() - different.size()) + " of " + rows.size() + " as expected");
    assertThat(different.keySet()).isEqualTo(DIFFERENT.keySet());
    different.forEach((id, names) -> assertThat(DIFFERENT.get(id)).startsWith(names + ":"));
  }

  /** Names from the map, so that the comparison does not depend on this Java's own zone data. */
  private static String names(ZonesAtPlace found) {
    return Stream.concat(found.zones().stream().map(ZoneId::getId), found.unknownNames().stream())
        .sorted()
        .collect(Collectors.joining("|"));
  }

  private static GeoPoint point(Map<String, String> row) {
    return new GeoPoint(
        Double.parseDouble(row.getOrDefault("lat_deg", "")),
        Double.parseDouble(row.getOrDefault("lon_deg_east", "")));
  }

  @Test
  void aZoneThatThisJavaLacksIsNamedAndNotReplaced() {
    String name = "America/Coyhaique";
    boolean known = ZoneId.getAvailableZoneIds().contains(name);
    ZonesAtPlace coyhaique = ZONES.zonesAt(new GeoPoint(-45.571177, -72.068456), 0);
    assertThat(coyhaique.unknownNames()).isEqualTo(known ? List.of() : List.of(name));
    assertThat(coyhaique.zones().stream().map(ZoneId::getId).toList())
        .isEqualTo(known ? List.of(name) : List.of());
  }

  /** The border of Spain and Portugal runs along the Guadiana; its middle is mapped to metres. */
  @Test
  void aPlaceNearABorderHasTheZonesOfBothSides() {
    GeoPoint spanishBank = new GeoPoint(37.3445, -7.4440);
    ZonesAtPlace exact = ZONES.zonesAt(spanishBank, 0);
    assertThat(exact.zones()).hasSize(1);
    assertThat(ZONES.zonesAt(spanishBank, 2000).zones())
        .containsExactly(ZoneId.of("Europe/Lisbon"), ZoneId.of("Europe/Madrid"));
    assertThat(ZONES.zonesAt(SANABRIA, 20).zones()).containsExactly(ZoneId.of("Europe/Madrid"));
  }

  @Test
  void everyPlaceOnEarthHasAZone() {
    List<GeoPoint> without = new ArrayList<>();
    for (int latitude = -89; latitude <= 89; latitude += 4) {
      for (int longitude = -179; longitude < 180; longitude += 4) {
        GeoPoint place = new GeoPoint(latitude + 0.123, longitude + 0.321);
        if (names(ZONES.zonesAt(place, 0)).isEmpty()) {
          without.add(place);
        }
      }
    }
    assertThat(without).isEmpty();
  }

  @Test
  void theMapOfZonesIsSmallInMemory(TestReporter reporter) {
    long before = usedBytes();
    List<ZoneShape> fresh = ZoneShapeData.load();
    long memory = usedBytes() - before;

    reporter.publishEntry("memory MB", String.valueOf(memory / 1_000_000));
    assertThat(memory).as("measured: 60 MB").isBetween(20_000_000L, 100_000_000L);
    assertThat(fresh).hasSameSizeAs(ZoneShapeData.shared());
  }

  private static long usedBytes() {
    System.gc();
    Runtime runtime = Runtime.getRuntime();
    return runtime.totalMemory() - runtime.freeMemory();
  }

  /** What is remembered of a part of the map must never change an answer. */
  @Test
  void answersAsIfEveryZoneWereAskedAtEveryPlace() {
    List<ZoneShape> all = ZoneShapeData.shared();
    Random random = new Random(64);
    List<GeoPoint> places = new ArrayList<>();
    for (Map<String, String> row : Reference.csv("zones/points.csv")) {
      places.add(near(point(row), 0.02, random));
    }
    for (int i = 0; i < 300; i++) {
      places.add(new GeoPoint(180 * random.nextDouble() - 90, 360 * random.nextDouble() - 180));
      places.add(near(places.get(random.nextInt(places.size())), 0.005, random));
    }
    places.add(new GeoPoint(90, 180));
    places.add(new GeoPoint(-90, -180));
    for (GeoPoint place : places) {
      for (double withinM : new double[] {0, 20, 3000}) {
        Set<String> expected = new TreeSet<>();
        Stream<GeoPoint> around =
            IntStream.range(0, 8)
                .mapToObj(i -> Geodesy.destination(place, Bearing.of(45.0 * i), withinM));
        Stream.concat(Stream.of(place), around)
            .forEach(
                at ->
                    all.stream()
                        .filter(zone -> zone.contains(at.latitudeDeg(), at.longitudeDeg()))
                        .forEach(zone -> expected.add(zone.name())));
        assertThat(names(ZONES.zonesAt(place, withinM)))
            .as("%s within %s m", place, withinM)
            .isEqualTo(String.join("|", expected));
      }
    }
  }

  private static GeoPoint near(GeoPoint place, double spreadDeg, Random random) {
    return new GeoPoint(
        Math.max(-90, Math.min(90, place.latitudeDeg() + spreadDeg * random.nextGaussian())),
        Math.max(-180, Math.min(180, place.longitudeDeg() + spreadDeg * random.nextGaussian())));
  }

  @Test
  void aDistanceThatIsNoneIsRefused() {
    for (double distance : new double[] {-1, Double.NaN, Double.POSITIVE_INFINITY}) {
      assertThatThrownBy(() -> ZONES.zonesAt(SANABRIA, distance))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessage("expected a distance in metres, 0 or more, found " + distance);
    }
  }
}
