package org.lightledger.cli;

import java.nio.file.Path;
import java.time.Clock;
import org.lightledger.ask.Asker;
import org.lightledger.correction.Corrections;
import org.lightledger.indexing.Importer;
import org.lightledger.shot.zone.ZoneLookup;
import org.lightledger.store.Ledger;
import org.lightledger.studio.Studio;
import org.lightledger.sun.SunEphemeris;

/**
 * What the commands work with.
 *
 * @param clock tells the present
 * @param sun knows where the sun is
 * @param zones knows the zones of places
 * @param defaultLedger the ledger's folder when none is named
 */
public record Services(Clock clock, SunEphemeris sun, ZoneLookup zones, Path defaultLedger) {

  Ledger open(Path folder) {
    return Ledger.open(folder, clock);
  }

  Asker asker() {
    return new Asker(sun);
  }

  Studio studio(Ledger ledger) {
    return new Studio(ledger, asker(), sun, clock);
  }

  Corrections corrections(Ledger ledger) {
    return new Corrections(ledger, zones, sun, clock);
  }

  Importer importer(Ledger ledger) {
    return new Importer(ledger, zones, sun);
  }
}
