package org.lightledger.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;

class ShotMatchingTest {
  private static final Instant FIVE = Instant.parse("2026-06-30T17:00:00Z");
  private static final GeoPoint MILL = new GeoPoint(41.93, -6.42);
  private static final GeoPoint STEPS = Geodesy.destination(MILL, new Bearing(90), 900);
  private static final ShotMatching.Stop FIRST = stop(1, MILL, 0, 30);
  private static final ShotMatching.Stop SECOND = stop(2, STEPS, 40, 70);

  private static ShotMatching.Stop stop(long spot, GeoPoint place, int from, int to) {
    return new ShotMatching.Stop(
        spot, place, FIVE.plusSeconds(60L * from), FIVE.plusSeconds(60L * to));
  }

  private static ShotMatching.Taken shot(long id, Long spot, GeoPoint place, double minute) {
    return new ShotMatching.Taken(id, spot, place, FIVE.plusMillis(Math.round(60_000 * minute)));
  }

  private static GeoPoint east(GeoPoint place, double distanceM) {
    return Geodesy.destination(place, new Bearing(90), distanceM);
  }

  private static List<Long> ids(List<ShotMatching.Taken> shots) {
    return shots.stream().map(ShotMatching.Taken::shotId).toList();
  }

  @Test
  void aShotBelongsByItsSpotOrByItsPlace() {
    ShotMatching matching =
        ShotMatching.of(
            List.of(FIRST, SECOND),
            List.of(
                shot(1, 1L, null, 10),
                shot(2, null, east(MILL, 99.9), 10),
                shot(3, null, east(MILL, 100.1), 10),
                shot(4, 7L, east(STEPS, -50), 50),
                shot(5, null, null, 10),
                shot(6, 2L, STEPS, 10)));
    assertThat(ids(matching.atStops().get(0))).containsExactly(1L, 2L);
    assertThat(ids(matching.atStops().get(1))).containsExactly(6L, 4L);
    assertThat(ids(matching.elsewhere())).containsExactly(3L, 5L);
  }

  @Test
  void aQuarterOfAnHourMoreOrLessStillCounts() {
    ShotMatching matching =
        ShotMatching.of(
            List.of(FIRST, SECOND),
            List.of(
                shot(1, 1L, MILL, -15),
                shot(2, 1L, MILL, -15.001),
                shot(3, null, MILL, 45),
                shot(4, null, MILL, 45.001),
                shot(5, null, STEPS, 25),
                shot(6, 2L, STEPS, 85),
                shot(7, 2L, STEPS, 85.001)));
    assertThat(ids(matching.atStops().get(0))).containsExactly(1L, 3L);
    assertThat(ids(matching.atStops().get(1))).containsExactly(5L, 6L);
    assertThat(ids(matching.elsewhere())).containsExactly(4L);
  }

  /** A visit that outlasts its plan keeps its shots, though the next stop is near and due. */
  @Test
  void aShotOfAStopsSpotIsThatStopsWheneverItWasTaken() {
    ShotMatching.Stop meadow = stop(3, east(MILL, 90), 40, 120);
    ShotMatching matching =
        ShotMatching.of(
            List.of(FIRST, meadow),
            List.of(
                shot(1, 1L, MILL, 45.001),
                shot(2, 1L, east(MILL, 60), 100),
                shot(3, null, east(MILL, 10), 100),
                shot(4, 3L, east(MILL, 70), 20)));
    assertThat(ids(matching.atStops().get(0))).containsExactly(1L, 2L);
    assertThat(ids(matching.atStops().get(1))).containsExactly(4L, 3L);
    assertThat(matching.elsewhere()).isEmpty();
  }

  @Test
  void twoVisitsOfOnePlaceAreToldApartByTime() {
    ShotMatching.Stop again = stop(1, MILL, 80, 110);
    ShotMatching matching =
        ShotMatching.of(
            List.of(FIRST, SECOND, again),
            List.of(shot(1, 1L, MILL, 20), shot(2, 1L, MILL, 44), shot(3, 1L, MILL, 70)));
    assertThat(ids(matching.atStops().get(0))).containsExactly(1L, 2L);
    assertThat(ids(matching.atStops().get(2))).containsExactly(3L);
  }

  @Test
  void ofNeighboursTheOwnSpotWinsThenTheNearer() {
    ShotMatching.Stop beside = stop(3, east(MILL, 60), 30, 60);
    ShotMatching matching =
        ShotMatching.of(
            List.of(FIRST, beside),
            List.of(
                shot(1, 1L, east(MILL, 50), 30),
                shot(2, null, east(MILL, 50), 30),
                shot(3, null, east(MILL, 10), 30)));
    assertThat(ids(matching.atStops().get(0))).containsExactly(1L, 3L);
    assertThat(ids(matching.atStops().get(1))).containsExactly(2L);
  }

  /** Nothing is lost or named twice, in whatever order shots come. */
  @Test
  void everyShotOfTheHoursIsNamedOnce() {
    Random random = new Random(4);
    for (int round = 0; round < 200; round++) {
      List<ShotMatching.Taken> shots = new ArrayList<>();
      for (int id = 1; id <= 20; id++) {
        Long spot = random.nextBoolean() ? null : Long.valueOf(1 + random.nextInt(3));
        GeoPoint place = random.nextInt(4) == 0 ? null : east(MILL, random.nextInt(1000));
        shots.add(shot(id, spot, place, random.nextInt(130) - 25));
      }
      ShotMatching matching = ShotMatching.of(List.of(FIRST, SECOND), shots);
      Collections.shuffle(shots, random);
      assertThat(ShotMatching.of(List.of(FIRST, SECOND), shots)).isEqualTo(matching);
      List<Long> named = new ArrayList<>(ids(matching.elsewhere()));
      matching.atStops().forEach(stop -> named.addAll(ids(stop)));
      assertThat(named)
          .containsExactlyInAnyOrderElementsOf(
              shots.stream()
                  .filter(shot -> !shot.at().isBefore(FIVE.minusSeconds(900)))
                  .filter(shot -> !shot.at().isAfter(FIVE.plusSeconds(85 * 60)))
                  .map(ShotMatching.Taken::shotId)
                  .toList());
    }
  }
}
