package org.lightledger.cli;

import java.util.List;
import org.lightledger.ask.Question;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerStock;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

@Command(name = "spots", description = "Lists the spots of the stock.")
final class SpotsVerb extends Verb {
  @Mixin private NearOptions nearOptions;

  SpotsVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    Question.Near near = nearOptions.near();
    try (Ledger ledger = open()) {
      List<Spot> spots = new LedgerStock(ledger).spots(near);
      print(() -> SpotOutput.json(spots), () -> SpotOutput.text(spots));
    }
    return 0;
  }
}
