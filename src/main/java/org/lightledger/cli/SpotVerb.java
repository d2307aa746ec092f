package org.lightledger.cli;

import org.lightledger.spot.LightProfile;
import org.lightledger.store.Ledger;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(name = "spot", description = "Shows the light profile of one spot.")
final class SpotVerb extends Verb {
  @Parameters(paramLabel = "ID", description = "The spot's number, as \"spots\" lists it.")
  private long spotId;

  SpotVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    try (Ledger ledger = open()) {
      LightProfile profile =
          ledger
              .read(session -> session.spots().profile(spotId))
              .orElseThrow(
                  () ->
                      new IllegalArgumentException(
                          "expected the number of a spot, found "
                              + spotId
                              + ", which the ledger does not have; \"spots\" lists them"));
      print(() -> SpotOutput.json(profile), () -> SpotOutput.text(profile));
    }
    return 0;
  }
}
