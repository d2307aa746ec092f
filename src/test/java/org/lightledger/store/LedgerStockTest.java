package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.spot.Spot;

class LedgerStockTest extends LedgerTestBase {
  private static final int SPOTS = 601;

  /** Many are read by two connections, few by one; either way each spot gets its own. */
  @Test
  void eachSpotGetsItsOwnSkyline() {
    Map<Long, Skyline> expected = new HashMap<>();
    ledger.change(
        session -> {
          for (int i = 0; i < SPOTS; i++) {
            GeoPoint place = new GeoPoint(40 + i * 0.001, 5);
            long id =
                session
                    .spots()
                    .insert(new Spot(0, "Spot " + i, null, place, null, false, List.of(), "", ""));
            Skyline skyline = flat(i * 0.05);
            session
                .skylines()
                .put(new SkylineStore.Due(id, place), skyline, List.of(), Instant.EPOCH);
            expected.put(id, skyline);
          }
        });
    LedgerStock stock = new LedgerStock(ledger);
    List<Long> all = new ArrayList<>(expected.keySet());
    assertThat(stock.skylines(all)).isEqualTo(expected);
    assertThat(stock.skylines(all.subList(3, 5)))
        .isEqualTo(
            Map.of(all.get(3), expected.get(all.get(3)), all.get(4), expected.get(all.get(4))));
  }

  private static Skyline flat(double altitudeDeg) {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      builder.set(step, altitudeDeg, 0.1, SkylineSource.TERRAIN, Set.of());
    }
    return builder.build();
  }
}
