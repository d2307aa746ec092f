package org.lightledger.cli;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.lightledger.session.Due;
import org.lightledger.store.Ledger;
import picocli.CommandLine.Command;

@Command(name = "today", description = "What is due now across all sessions.")
final class TodayVerb extends Verb {
  TodayVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    try (Ledger ledger = open()) {
      List<Due> due = services.studio(ledger).due();
      ledger.read(
          session -> {
            print(
                () -> due.stream().map(SessionOutput::json).toList(),
                () ->
                    due.isEmpty()
                        ? String.format(Locale.ROOT, "Nothing is due.%n")
                        : due.stream()
                            .map(one -> SessionOutput.text(session, one))
                            .collect(Collectors.joining()));
            return due.size();
          });
    }
    return 0;
  }
}
