package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.GeoPoint;

/** A new ledger for each test; afterwards it must be sound and every connection closed. */
abstract class LedgerTestBase {
  static final GeoPoint CHAPEL = new GeoPoint(41.95, -6.61);

  @TempDir Path folder;
  Ledger ledger;

  @BeforeEach
  void openLedger() {
    ledger = Samples.open(folder);
  }

  @AfterEach
  void closeLedger() {
    ledger.close();
    assertThat(ledger.connections()).as("connections left open").isZero();
  }

  long insertSpot(String name, GeoPoint position) {
    return ledger.write(session -> session.spots().insert(Samples.spot(name, position)));
  }

  /** Runs one statement as some other program might. */
  void sql(String statement) {
    ledger.change(session -> session.call(statement).run());
  }

  long number(String query) {
    return ledger.read(session -> session.call(query).number());
  }
}
