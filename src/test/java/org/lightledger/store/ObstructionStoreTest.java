package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.skyline.buildings.HeightSource;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.skyline.buildings.ObstructionKind;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.MultiPolygon;
import org.locationtech.jts.geom.Polygon;

class ObstructionStoreTest extends LedgerTestBase {

  @Test
  void whatTheOwnerDrawsComesBackAsItIs() {
    Polygon one = (Polygon) MapSamples.house("", CHAPEL, 1).outline();
    Polygon other = (Polygon) MapSamples.house("", new GeoPoint(41.96, -6.61), 1).outline();
    MultiPolygon both = new GeometryFactory().createMultiPolygon(new Polygon[] {one, other});
    Obstruction trees =
        new Obstruction(
            "Poplars", ObstructionKind.TREE_ROW, both, 18.5, 2.0, HeightSource.ASSUMED, 812.25);
    long id = ledger.write(session -> session.obstructions().addByOwner(trees));
    StoredObstruction stored =
        ledger.read(session -> session.obstructions().find(id)).orElseThrow();

    assertThat(stored.obstruction()).isEqualTo(trees);
    assertThat(stored.byOwner()).isTrue();
    assertThat(stored.name()).isNull();

    Obstruction house = MapSamples.house("Barn", CHAPEL, 7);
    ledger.change(session -> session.obstructions().changeByOwner(id, house));
    List<StoredObstruction> drawn = ledger.read(session -> session.obstructions().ofOwner());
    assertThat(drawn).extracting(StoredObstruction::obstruction).containsExactly(house);

    ledger.change(session -> session.obstructions().removeByOwner(id));
    assertThat(ledger.read(session -> session.obstructions().find(id)).isEmpty()).isTrue();
    assertThat(LedgerCheck.run(folder)).isEmpty();
  }

  @Test
  void whatCameFromAMapIsNotTheOwnersToChange() {
    ledger.write(session -> MapSamples.add(session, 1));
    Obstruction house = MapSamples.house("Barn", CHAPEL, 7);
    for (long id : new long[] {1, 99}) {
      assertThatThrownBy(
              () -> ledger.change(session -> session.obstructions().changeByOwner(id, house)))
          .isInstanceOf(LedgerException.class)
          .hasMessageContaining("found no obstruction of the owner's with the number " + id);
      assertThatThrownBy(() -> ledger.change(session -> session.obstructions().removeByOwner(id)))
          .isInstanceOf(LedgerException.class);
    }
    assertThat(ledger.read(session -> session.obstructions().find(1)).orElseThrow().name())
        .isEqualTo("Mill");
  }

  /**
   * None within reach is missed, wherever on earth; those a little farther may be found as well.
   */
  @Test
  void whatIsNearIsFoundEverywhere() {
    Random random = new Random(5);
    for (GeoPoint middle :
        List.of(CHAPEL, new GeoPoint(0, 179.9999), new GeoPoint(69.6, -179.9999))) {
      List<GeoPoint> corners = new ArrayList<>();
      ledger.change(
          session -> {
            for (int i = 0; i < 300; i++) {
              double longitudeDeg = middle.longitudeDeg() + (random.nextDouble() - 0.5) * 0.08;
              double wrappedDeg =
                  longitudeDeg > 180
                      ? longitudeDeg - 360
                      : longitudeDeg < -180 ? longitudeDeg + 360 : longitudeDeg;
              GeoPoint corner =
                  new GeoPoint(
                      middle.latitudeDeg() + (random.nextDouble() - 0.5) * 0.04,
                      Math.min(wrappedDeg, 180 - MapSamples.SIDE_DEG));
              corners.add(corner);
              session.obstructions().addByOwner(MapSamples.house("house " + i, corner, 5));
            }
          });
      List<Obstruction> near = ledger.read(session -> session.obstructions().near(middle, 1000.0));
      int expected = 0;
      for (int i = 0; i < corners.size(); i++) {
        if (Geodesy.distanceM(middle, corners.get(i)) <= 1000.0) {
          String id = "house " + i;
          assertThat(near).as(id).anyMatch(found -> found.id().equals(id));
          expected++;
        }
      }
      assertThat(expected).isGreaterThan(10);
      assertThat(near).hasSizeLessThan(expected * 2);
      ledger.change(session -> session.call("DELETE FROM obstructions").run());
    }
  }
}
