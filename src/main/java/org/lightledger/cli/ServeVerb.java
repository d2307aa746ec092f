package org.lightledger.cli;

import org.lightledger.store.Ledger;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

@Command(name = "serve", description = "Serves the pages on this machine.")
final class ServeVerb extends Verb {
  @Mixin private ServerOptions options;

  ServeVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() throws InterruptedException {
    try (Ledger ledger = openOrMake();
        Serving serving = new Serving(services, ledger, options.settings())) {
      print(serving::json, serving::text);
      serving.untilStopped();
    }
    return 0;
  }
}
