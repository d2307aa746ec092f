package org.lightledger.indexing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.spot.Spot;

/** Nothing that comes later undoes what the owner grouped by hand. */
class GroupingPropertiesTest {
  private static final byte[] EMPTY = empty();

  private record Taken(String name, GeoPoint place, @Nullable Double errorM) {}

  private static byte[] empty() {
    return inFolder(Grouped::empty);
  }

  private interface InFolder<T> {
    T run(Path folder);
  }

  private static <T> T inFolder(InFolder<T> work) {
    try {
      Path folder = Files.createTempDirectory("grouping");
      try {
        return work.run(folder);
      } finally {
        try (Stream<Path> walk = Files.walk(folder)) {
          for (Path path : walk.sorted(Collections.reverseOrder()).toList()) {
            Files.delete(path);
          }
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Property(tries = 25)
  void laterImportsLeaveEveryShotWhereItIsAndEveryPositionThatTheOwnerSet(
      @ForAll @IntRange(max = Integer.MAX_VALUE) int seed) {
    inFolder(
        folder -> {
          Random random = new Random(seed);
          try (Grouped ledger = Grouped.copyOf(EMPTY, folder)) {
            scatter(random, "before", 25).forEach(taken -> add(ledger, taken));
            Map<Long, GeoPoint> byOwner = new HashMap<>();
            for (int i = 0; i < 6; i++) {
              edit(ledger, random, byOwner);
            }
            Map<String, Long> homes = ledger.home();
            int deleted = ledger.dropped().size();

            List<Taken> later = scatter(random, "later", 25);
            later.forEach(taken -> add(ledger, taken));

            assertThat(ledger.home()).containsAllEntriesOf(homes);
            byOwner.forEach(
                (spotId, place) -> assertThat(ledger.spot(spotId).position()).isEqualTo(place));
            assertThat(ledger.dropped().size()).isEqualTo(deleted);

            Map<String, Long> grown = ledger.home();
            Map<Long, GeoPoint> positions = ledger.positions();
            later.forEach(taken -> add(ledger, taken));
            assertThat(ledger.home()).isEqualTo(grown);
            assertThat(ledger.positions()).isEqualTo(positions);
          }
          return true;
        });
  }

  @Property(tries = 25)
  void amongSpotsThatTheOwnerTouchedTheOrderOfLaterShotsChangesNothing(
      @ForAll @IntRange(max = Integer.MAX_VALUE) int seed) {
    inFolder(
        folder -> {
          try (Grouped one = Grouped.copyOf(EMPTY, folder.resolve("one"));
              Grouped other = Grouped.copyOf(EMPTY, folder.resolve("other"))) {
            touchEverySpot(one, new Random(seed));
            touchEverySpot(other, new Random(seed));
            assertThat(other.positions()).isEqualTo(one.positions());

            Random random = new Random(~seed);
            List<Taken> later = nearAnchors(one, random);
            later.forEach(taken -> add(one, taken));
            Collections.shuffle(later, random);
            later.forEach(taken -> add(other, taken));

            assertThat(other.home()).isEqualTo(one.home());
            assertThat(other.positions()).isEqualTo(one.positions());
          }
          return true;
        });
  }

  @Property(tries = 25)
  void aShotGoesToTheNearestOfTheAnchorsWithinReach(
      @ForAll @IntRange(max = Integer.MAX_VALUE) int seed) {
    inFolder(
        folder -> {
          Random random = new Random(seed);
          try (Grouped ledger = Grouped.copyOf(EMPTY, folder)) {
            touchEverySpot(ledger, random);
            for (Taken taken : nearAnchors(ledger, random)) {
              long expected = nearest(ledger, taken.place());
              add(ledger, taken);
              assertThat(ledger.home()).containsEntry(taken.name(), expected);
            }
          }
          return true;
        });
  }

  private static void add(Grouped ledger, Taken taken) {
    ledger.add(taken.name(), taken.place(), taken.errorM());
  }

  /** Shots in a square of some hundred metres, a few of them rough. */
  private static List<Taken> scatter(Random random, String name, int count) {
    List<Taken> shots = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      GeoPoint place =
          new GeoPoint(
              Grouped.HERE.latitudeDeg() + 0.0015 * random.nextDouble(),
              Grouped.HERE.longitudeDeg() + 0.002 * random.nextDouble());
      Double errorM =
          random.nextInt(4) == 0 ? null : Double.valueOf(3 + 40 * Math.pow(random.nextDouble(), 3));
      shots.add(new Taken(name + i, place, errorM));
    }
    return shots;
  }

  private static void edit(Grouped ledger, Random random, Map<Long, GeoPoint> byOwner) {
    List<Spot> spots = ledger.spots();
    if (spots.size() < 3) {
      return;
    }
    long spot = spots.get(random.nextInt(spots.size())).id();
    long other = spots.get(random.nextInt(spots.size())).id();
    List<Long> shots = shotsOf(ledger, spot);
    switch (random.nextInt(5)) {
      case 0 -> {
        if (spot != other) {
          ledger.edit(editing -> editing.join(spot, other));
          byOwner.remove(other);
        }
      }
      case 1 -> {
        if (shots.size() > 1) {
          ledger.edit(editing -> editing.split(spot, shots.subList(0, shots.size() / 2)));
        }
      }
      case 2 -> {
        if (!shots.isEmpty()) {
          ledger.edit(editing -> editing.moveShots(shots, other));
        }
      }
      case 3 -> {
        GeoPoint place = Geodesy.destination(ledger.spot(spot).position(), new Bearing(45), 15);
        ledger.edit(editing -> editing.moveTo(spot, place));
        byOwner.put(spot, place);
      }
      default -> {
        ledger.edit(editing -> editing.delete(spot));
        byOwner.remove(spot);
      }
    }
  }

  private static List<Long> shotsOf(Grouped ledger, long spotId) {
    return ledger.ledger().read(session -> session.shots().ofSpot(spotId)).stream()
        .map(shot -> shot.id())
        .sorted()
        .toList();
  }

  private static void touchEverySpot(Grouped ledger, Random random) {
    scatter(random, "before", 20).forEach(taken -> add(ledger, taken));
    for (Spot spot : ledger.spots()) {
      List<Long> shots = shotsOf(ledger, spot.id());
      if (shots.size() > 1) {
        ledger.edit(editing -> editing.split(spot.id(), shots.subList(0, 1)));
      } else {
        GeoPoint place = Geodesy.destination(spot.position(), new Bearing(200), 5);
        ledger.edit(editing -> editing.moveTo(spot.id(), place));
      }
    }
  }

  /** Exact shots, each within reach of an anchor. */
  private static List<Taken> nearAnchors(Grouped ledger, Random random) {
    List<Spot> spots = ledger.spots();
    List<Taken> shots = new ArrayList<>();
    for (int i = 0; i < 25; i++) {
      List<GeoPoint> anchors = ledger.anchors(spots.get(random.nextInt(spots.size())).id());
      GeoPoint place =
          Geodesy.destination(
              anchors.get(random.nextInt(anchors.size())),
              new Bearing(359 * random.nextDouble()),
              0.99 * Grouped.JOIN_M * random.nextDouble());
      shots.add(new Taken("later" + i, place, 3 + 10 * random.nextDouble()));
    }
    return shots;
  }

  private static long nearest(Grouped ledger, GeoPoint place) {
    long nearest = 0;
    double leastM = Double.POSITIVE_INFINITY;
    for (Spot spot : ledger.spots()) {
      for (GeoPoint anchor : ledger.anchors(spot.id())) {
        double awayM = Geodesy.distanceM(place, anchor);
        if (awayM < leastM) {
          nearest = spot.id();
          leastM = awayM;
        }
      }
    }
    return nearest;
  }
}
