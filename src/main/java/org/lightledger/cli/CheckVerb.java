package org.lightledger.cli;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.lightledger.store.Finding;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerCheck;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(name = "check", description = "Verifies the ledger and says what to do if it is damaged.")
final class CheckVerb extends Verb {
  @Option(
      names = "--repair",
      description = "Rebuild the spatial indexes from the positions first. Nothing else changes.")
  private boolean repair;

  CheckVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    if (repair) {
      try (Ledger ledger = open()) {
        ledger.rebuildSpatialIndexes();
      }
    }
    List<Finding> findings = LedgerCheck.run(folder());
    if (findings.isEmpty()) {
      try (Ledger ledger = open()) {
        noteKeptPassword(ledger);
      }
    }
    print(
        () ->
            findings.stream()
                .map(
                    finding ->
                        Json.fields()
                            .put("found", finding.found())
                            .put("expected", finding.expected())
                            .put("remedy", finding.remedy())
                            .map())
                .toList(),
        () -> findings.isEmpty() ? sound() : text(findings));
    return findings.isEmpty() ? 0 : 1;
  }

  private static String sound() {
    return String.format(Locale.ROOT, "The ledger is sound.%n");
  }

  private static String text(List<Finding> findings) {
    return findings.stream()
        .map(
            finding ->
                String.format(
                    Locale.ROOT,
                    "Found: %s%nExpected: %s%nWhat to do: %s%n",
                    finding.found(),
                    finding.expected(),
                    finding.remedy()))
        .collect(Collectors.joining(System.lineSeparator()));
  }
}
