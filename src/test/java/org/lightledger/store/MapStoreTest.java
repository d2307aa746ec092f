package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.lightledger.map.FeatureKind;
import org.lightledger.map.MapBox;
import org.lightledger.map.MapFeature;
import org.lightledger.map.MapView;
import org.locationtech.jts.geom.Envelope;

class MapStoreTest extends LedgerTestBase {
  private static final List<FeatureKind> EVERY = Arrays.asList(FeatureKind.values());
  private static final MapBox VILLAGE = new MapBox(-6.62, 41.94, -6.60, 41.96);

  @AfterEach
  void sound() {
    assertThat(LedgerCheck.run(folder)).isEmpty();
  }

  @Test
  void aMapIsKeptWithItsCounts() {
    StoredMap map = ledger.write(session -> MapSamples.add(session, 1));

    assertThat(map.obstructions()).isEqualTo(2);
    assertThat(map.features()).isEqualTo(3);
    assertThat(map.problems()).isEqualTo(4);
    List<StoredMap> all = ledger.read(session -> session.maps().all());
    assertThat(all).containsExactly(map);
    Optional<StoredMap> known =
        ledger.read(session -> session.maps().withContent(Samples.sha256(1)));
    assertThat(known).contains(map);
    Optional<MapBox> bounds = ledger.read(session -> session.maps().bounds());
    assertThat(bounds).contains(VILLAGE);
    assertThat(ledger.read(session -> session.maps().obstructionBounds(map.id())).orElseThrow())
        .satisfies(
            box ->
                assertThat(box.envelope())
                    .isEqualTo(new Envelope(-6.61, -6.61 + 1e-4, 41.95, 41.951 + 1e-4)));
  }

  @Test
  void withoutAMapThereAreNoBounds() {
    Optional<MapBox> bounds = ledger.read(session -> session.maps().bounds());
    assertThat(bounds).isEmpty();
  }

  @Test
  void removingAMapTakesAllThatCameOfItAndLeavesWhatTheOwnerDrew() {
    long owners =
        ledger.write(
            session -> {
              MapSamples.add(session, 1);
              return session.obstructions().addByOwner(MapSamples.house("Barn", CHAPEL, 8));
            });
    ledger.change(session -> session.maps().remove(1));

    assertThat(number("SELECT count(*) FROM map_features")).isZero();
    assertThat(number("SELECT count(*) FROM rtree_map_features_geom")).isZero();
    List<StoredObstruction> left = ledger.read(session -> session.obstructions().within(VILLAGE));
    assertThat(left).extracting(StoredObstruction::id).containsExactly(owners);
    assertThatThrownBy(() -> ledger.change(session -> session.maps().remove(1)))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("found no map with the number 1");
  }

  @Test
  void theSameContentIsRefusedTwice() {
    ledger.write(session -> MapSamples.add(session, 1));
    assertThatThrownBy(() -> ledger.write(session -> MapSamples.add(session, 1)))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("maps.sha256");
  }

  @Test
  void theVersionCountsMapsAndTheOwnersObstructionsAlone() {
    long empty = version();
    ledger.write(session -> MapSamples.add(session, 1));
    long added = version();
    assertThat(added).isGreaterThan(empty);
    insertSpot("Chapel", CHAPEL);
    assertThat(version()).isEqualTo(added);
    long id =
        ledger.write(
            session -> session.obstructions().addByOwner(MapSamples.house("Barn", CHAPEL, 8)));
    long drawn = version();
    assertThat(drawn).isGreaterThan(added);
    ledger.change(
        session -> session.obstructions().changeByOwner(id, MapSamples.house("Barn", CHAPEL, 9)));
    long changed = version();
    assertThat(changed).isGreaterThan(drawn);
    ledger.change(session -> session.obstructions().removeByOwner(id));
    long removed = version();
    assertThat(removed).isGreaterThan(changed);
    ledger.change(session -> session.maps().remove(1));
    assertThat(version()).isGreaterThan(removed);
  }

  private long version() {
    return ledger.read(session -> session.maps().version());
  }

  @Test
  void whatIsDrawnIsFoundBothWaysByBoxKindAndSize() {
    ledger.write(session -> MapSamples.add(session, 1));
    for (boolean few : new boolean[] {false, true}) {
      assertThat(found(VILLAGE, EVERY, 0, few)).containsExactly("way/3", "way/4", "node/5");
      assertThat(found(VILLAGE, EVERY, 0.002, few))
          .as("a village is a point and never too small")
          .containsExactly("way/3", "node/5");
      assertThat(found(VILLAGE, List.of(FeatureKind.WATER), 0, few)).containsExactly("way/4");
      assertThat(found(new MapBox(-6.62, 41.9515, -6.61, 41.96), EVERY, 0, few))
          .containsExactly("way/4");
      assertThat(found(new MapBox(1, 1, 2, 2), EVERY, 0, few)).isEmpty();
    }
    MapFeature street =
        ledger.read(session -> session.maps().within(VILLAGE, EVERY, 0, false)).get(0);
    assertThat(street.name()).isEqualTo("Calle Mayor");
    assertThat(street.geometry().getNumPoints()).isEqualTo(2);
  }

  private List<String> found(MapBox box, List<FeatureKind> kinds, double smallestDeg, boolean few) {
    return ledger.read(
        session ->
            session.maps().within(box, kinds, smallestDeg, few).stream()
                .map(MapFeature::sourceId)
                .toList());
  }

  @Test
  void aWindowShowsHousesFromNearAndWoodsFromAfar() {
    ledger.write(session -> MapSamples.add(session, 1));
    MapView near = MapView.of(VILLAGE, 800, 800, 19);
    MapView far = new MapView(11, near.leftPx() / 32, near.topPx() / 32, 50, 50);

    assertThat(near.zoom()).isGreaterThan(14);
    assertThat(ledger.read(session -> session.maps().content(near)).obstructions()).hasSize(2);
    assertThat(ledger.read(session -> session.maps().content(near)).regions())
        .containsExactly(VILLAGE);
    assertThat(ledger.read(session -> session.maps().content(far)).obstructions()).isEmpty();
  }
}
