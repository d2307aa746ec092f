package org.lightledger.cli;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import org.lightledger.store.Ledger;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(name = "backup", description = "Copies the ledger, also while it is in use.")
final class BackupVerb extends Verb {
  @Parameters(paramLabel = "FILE", description = "The new file.")
  private Path target;

  BackupVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    try (Ledger ledger = open()) {
      ledger.backup(target);
      noteKeptPassword(ledger);
    }
    print(
        () -> Map.of("file", target.toString()),
        () -> String.format(Locale.ROOT, "Copied to %s%n", target));
    return 0;
  }
}
