package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.Shot;
import org.lightledger.sun.SunDirection;

class ShotStoreTest {
  private static final GeoPoint PLACE = new GeoPoint(41.95, -6.61);
  private static final Instant MORNING = Instant.parse("2026-05-01T06:20:00Z");

  @TempDir Path folder;
  private Ledger ledger;

  @BeforeEach
  void open() {
    ledger = Samples.open(folder);
  }

  @AfterEach
  void close() {
    ledger.close();
    assertThat(ledger.connections()).as("connections left open").isZero();
  }

  @Test
  void everyShotComesBackAsItWentIn() {
    Random random = new Random(20260501);
    Map<Long, StoredShot> written = new HashMap<>();
    ledger.change(
        session -> {
          long spot = session.spots().insert(Samples.spot("Chapel", PLACE));
          for (int number = 0; number < 500; number++) {
            Shot shot = Samples.anyShot(random);
            SunDirection sun = Samples.anySun(random, shot);
            Long spotId = random.nextBoolean() ? spot : null;
            String sha256 = Samples.sha256(number);
            long id = session.shots().insert(shot, sha256, sun, spotId);
            written.put(id, new StoredShot(id, sha256, shot, sun, spotId, List.of()));
          }
        });

    for (StoredShot shot : written.values()) {
      Optional<StoredShot> found = ledger.read(session -> session.shots().find(shot.id()));
      assertThat(found).contains(shot);
      Optional<Long> id = ledger.read(session -> session.shots().idOf(shot.sha256()));
      assertThat(id).contains(shot.id());
    }
    List<StoredShot> waiting = ledger.read(session -> session.shots().needingAttention());
    assertThat(waiting)
        .containsExactlyElementsOf(
            written.values().stream()
                .filter(shot -> shot.shot().needsAttention())
                .sorted(Comparator.comparingLong(StoredShot::id))
                .toList())
        .isNotEmpty();
  }
}
