package org.lightledger.cli;

import java.util.List;
import java.util.stream.Collectors;
import org.lightledger.ask.Question;
import org.lightledger.spot.Spot;
import org.lightledger.store.DroppedSpot;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerStock;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(name = "spots", description = "Lists the spots of the stock.")
final class SpotsVerb extends Verb {
  @Mixin private NearOptions nearOptions;

  @Option(names = "--deleted", description = "The deleted spots instead; \"spot ID --bring-back\".")
  private boolean deleted;

  SpotsVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    Question.Near near = nearOptions.near();
    try (Ledger ledger = open()) {
      if (deleted) {
        List<DroppedSpot> dropped = ledger.read(session -> session.droppedSpots().all());
        print(
            () -> dropped.stream().map(SpotOutput::json).toList(),
            () -> dropped.stream().map(SpotOutput::text).collect(Collectors.joining()));
        return 0;
      }
      List<Spot> spots = new LedgerStock(ledger).spots(near);
      print(() -> SpotOutput.json(spots), () -> SpotOutput.text(spots));
    }
    return 0;
  }
}
