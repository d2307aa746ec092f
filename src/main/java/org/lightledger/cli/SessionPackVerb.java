package org.lightledger.cli;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.store.Ledger;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
    name = "pack",
    description = "Lists what a session needs packed, and ticks things that are.")
final class SessionPackVerb extends Verb {
  @Parameters(index = "0", paramLabel = "SESSION", description = "Its number.")
  private long id;

  @Parameters(
      index = "1..*",
      arity = "0..*",
      paramLabel = "ITEM",
      description = "The numbers of things that are packed.")
  private List<Long> items = new ArrayList<>();

  @Option(names = "--undo", description = "Takes the ticks back.")
  private boolean undo;

  @Option(names = "--add", paramLabel = "TEXT", description = "Another thing for this session.")
  private @Nullable String words;

  SessionPackVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    Instant now = services.clock().instant();
    try (Ledger ledger = open()) {
      ledger.change(
          session -> {
            SessionVerb.session(session, id);
            items.forEach(item -> session.packing().tick(id, item, !undo, now));
            if (words != null) {
              session.packing().add(id, words.strip());
            }
          });
      ledger.read(
          session -> {
            print(() -> SessionOutput.packing(session, id), () -> SessionOutput.items(session, id));
            return id;
          });
    }
    return 0;
  }
}
