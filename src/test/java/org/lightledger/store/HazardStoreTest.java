package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.lightledger.field.FieldEntry;
import org.lightledger.geo.GeoPoint;
import org.lightledger.spot.Hazard;

class HazardStoreTest extends LedgerTestBase {
  private static final GeoPoint BANK = new GeoPoint(41.93, -6.42);

  private long spot(String name, Hazard... hazards) {
    return ledger.write(
        session -> {
          long id = session.spots().insert(Samples.spot(name, BANK));
          session.hazards().set(id, Set.of(hazards));
          return id;
        });
  }

  private Set<Hazard> hazards(long id) {
    return ledger.read(session -> session.hazards().of(id));
  }

  @Test
  void hazardsAreKeptInPlaceOfThoseBefore() {
    long bank = spot("Bank", Hazard.WATER, Hazard.RAILWAY);
    long field = spot("Field");
    ledger.change(session -> session.hazards().set(bank, Set.of(Hazard.WATER, Hazard.DROP)));

    assertThat(hazards(bank)).containsExactly(Hazard.WATER, Hazard.DROP);
    assertThat(hazards(field)).isEmpty();
    assertThat(ledger.<Map<Long, Set<Hazard>>>read(session -> session.hazards().all()))
        .isEqualTo(Map.of(bank, Set.of(Hazard.WATER, Hazard.DROP)));
    assertThatThrownBy(
            () -> ledger.change(session -> session.hazards().set(99, Set.of(Hazard.ROAD))))
        .isInstanceOf(LedgerException.class);
  }

  @Test
  void aNameOfAnEntryIsTakenOnce() {
    FieldEntry entry =
        new FieldEntry(
            UUID.fromString("0f9c2f0e-93b1-4e0e-8a51-3d1b5f1c7a11"),
            FieldEntry.Kind.TICK,
            Instant.EPOCH,
            Samples.NOW,
            FieldEntry.Outcome.TAKEN,
            "packed",
            "Taken in.",
            null);
    ledger.change(session -> session.field().keep(entry));

    assertThat(ledger.<FieldEntry>read(session -> session.field().find(entry.uuid()).orElseThrow()))
        .isEqualTo(entry);
    assertThatThrownBy(() -> ledger.change(session -> session.field().keep(entry)))
        .isInstanceOf(LedgerException.class);
    assertThat(ledger.<java.util.List<FieldEntry>>read(session -> session.field().all()))
        .containsExactly(entry);
  }
}
