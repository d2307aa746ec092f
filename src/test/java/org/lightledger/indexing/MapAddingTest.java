package org.lightledger.indexing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.GeoPoint;
import org.lightledger.map.MapBox;
import org.lightledger.map.osm.OsmFileException;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerCheck;
import org.lightledger.store.StoredMap;
import org.lightledger.testing.Reference;

/** A real extract, added to a real ledger. */
class MapAddingTest {
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-11-25T10:00:00Z"), ZoneOffset.UTC);

  @TempDir Path folder;
  private Ledger ledger;
  private MapAdding adding;

  @BeforeEach
  void open() {
    ledger = Ledger.open(folder.resolve("ledger"), CLOCK);
    adding = new MapAdding(ledger, CLOCK);
  }

  @AfterEach
  void close() {
    assertThat(LedgerCheck.run(folder.resolve("ledger"))).isEmpty();
    ledger.close();
  }

  private static Path monaco() {
    return Reference.path("extract/monaco.osm.gz");
  }

  @Test
  void anExtractIsAddedOnceHoweverOftenItIsAdded() throws IOException {
    MapAdding.Result first = adding.add(monaco());
    MapAdding.Result again =
        adding.add(Files.copy(monaco(), folder.resolve("the same under another name.osm")));

    assertThat(first.added()).isTrue();
    assertThat(first.map().obstructions()).isEqualTo(1174);
    assertThat(first.map().addedAt()).isEqualTo(CLOCK.instant());
    assertThat(again.added()).isFalse();
    assertThat(again.map()).isEqualTo(first.map());
    assertThat(again.changed()).isEmpty();
    MapBox changed = first.changed().orElseThrow();
    assertThat(changed.westDeg()).isBetween(7.40, 7.42);
    assertThat(changed.northDeg()).isBetween(43.75, 43.76);
    List<Obstruction> near =
        ledger.read(session -> session.obstructions().near(new GeoPoint(43.7396, 7.4278), 100.0));
    assertThat(near).hasSizeBetween(5, 100);
  }

  @Test
  void aFileThatBreaksOffLeavesTheLedgerAsItWas() throws IOException {
    byte[] whole = Files.readAllBytes(monaco());
    Path half = folder.resolve("half.osm.gz");
    for (int part = 1; part < 8; part++) {
      Files.write(half, Arrays.copyOf(whole, whole.length * part / 8));
      assertThatThrownBy(() -> adding.add(half))
          .isInstanceOf(OsmFileException.class)
          .hasMessageContaining("breaks off or is damaged");
    }
    List<StoredMap> maps = ledger.read(session -> session.maps().all());
    assertThat(maps).isEmpty();
    assertThat(ledger.stockVersion()).isZero();
  }

  @Test
  void removingTellsWhereAndTheFileCanBeAddedAgain() throws IOException {
    MapAdding.Result first = adding.add(monaco());

    assertThat(adding.remove(first.map().id())).isEqualTo(first.changed());
    assertThat(adding.add(monaco()).added()).isTrue();
  }
}
