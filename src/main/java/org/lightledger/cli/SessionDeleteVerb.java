package org.lightledger.cli;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.lightledger.store.Ledger;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Deletes a session. */
@Command(
    name = "delete",
    description = "Deletes a session with its plan, answers, messages and shares.")
final class SessionDeleteVerb extends Verb {
  @Parameters(paramLabel = "SESSION", description = "Its number.")
  private long id;

  @Option(names = "--yes", description = "Needed: a deletion can not be undone.")
  private boolean sure;

  SessionDeleteVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    if (!sure) {
      throw usage("expected --yes, for a deletion can not be undone; found none", null);
    }
    List<String> held;
    try (Ledger ledger = open()) {
      held =
          ledger.write(
              session -> {
                SessionVerb.session(session, id);
                List<String> all = session.sessionRecords().held(id);
                session.sessionRecords().delete(id);
                return all;
              });
      ledger.scrub();
    }
    note("Messages and calendar entries that went out keep what they have; so do backups.");
    print(
        () -> Map.of("deleted", id, "with", held),
        () ->
            String.format(
                Locale.ROOT,
                "Session %d is deleted%s.%n",
                id,
                held.isEmpty() ? "" : " with " + String.join(", ", held)));
    return 0;
  }
}
