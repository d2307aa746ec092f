package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.RepetitionInfo;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;

/** Searches by distance give what comparing with every spot gives. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class SpotSearchTest {
  private Ledger ledger;
  private List<Spot> stock;

  @BeforeAll
  void fill(@TempDir Path folder) {
    ledger = Samples.open(folder);
    Random random = new Random(7);
    ledger.change(
        session -> {
          for (int number = 0; number < 3000; number++) {
            GeoPoint place = Samples.anyPlace(random);
            // Half of them in a crowd at the antimeridian, where a box is cut in two.
            if (number % 2 == 0) {
              double east = 179.5 + random.nextDouble();
              place = new GeoPoint(-17 + random.nextDouble() * 0.5, east > 180 ? east - 360 : east);
            }
            Facing facing =
                new Facing(new Bearing(number % 360), number % 181, Facing.Origin.SHOTS, number);
            session.spots().insert(Samples.spot("Spot " + number, place, facing));
          }
        });
    stock = ledger.read(session -> session.spots().all());
  }

  @AfterAll
  void close() {
    ledger.close();
  }

  @RepeatedTest(300)
  void searchesAgreeWithComparingAll(RepetitionInfo repetition) {
    Random random = new Random(repetition.getCurrentRepetition());
    GeoPoint centre =
        random.nextBoolean()
            ? Samples.anyPlace(random)
            : stock.get(random.nextInt(stock.size())).position();
    double radiusM = Math.pow(10, random.nextDouble() * 7.4);

    List<NearSpot> expected =
        stock.stream()
            .map(spot -> new NearSpot(spot, Geodesy.distanceM(centre, spot.position())))
            .filter(near -> near.distanceM() <= radiusM)
            .sorted(
                Comparator.comparingDouble(NearSpot::distanceM)
                    .thenComparingLong(near -> near.spot().id()))
            .toList();
    List<NearSpot> found = ledger.read(session -> session.spotSearch().within(centre, radiusM));
    Optional<NearSpot> nearest =
        ledger.read(session -> session.spotSearch().nearest(centre, radiusM));
    assertThat(found).isEqualTo(expected);
    assertThat(nearest).isEqualTo(expected.stream().findFirst());
  }

  @Test
  void everySpotIsWithinHalfTheEarth() {
    List<NearSpot> found =
        ledger.read(session -> session.spotSearch().within(new GeoPoint(90, 12), 20_100_000));
    assertThat(found).hasSize(3000);
  }

  @Test
  void bothSidesOfTheAntimeridianAreFound() {
    List<NearSpot> found =
        ledger.read(session -> session.spotSearch().within(new GeoPoint(-16.75, 180), 50_000));
    assertThat(found)
        .anyMatch(near -> near.spot().position().longitudeDeg() > 0)
        .anyMatch(near -> near.spot().position().longitudeDeg() < 0);
  }
}
