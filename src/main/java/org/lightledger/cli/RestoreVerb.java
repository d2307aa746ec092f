package org.lightledger.cli;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import org.lightledger.store.Ledger;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
    name = "restore",
    description = {
      "Makes the ledger from a backup.",
      "The backup is checked first and stays as it is; an older one is brought up to date."
    })
final class RestoreVerb extends Verb {
  @Parameters(paramLabel = "FILE", description = "A file that \"backup\" made.")
  private Path backup;

  @Option(
      names = "--replace",
      description = "Move the ledger that is there aside, under a new name in its folder.")
  private boolean replace;

  RestoreVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    Optional<Path> aside = Ledger.restore(backup, folder(), replace, services.clock());
    long spots;
    try (Ledger ledger = open()) {
      spots = ledger.read(session -> session.spots().count());
    }
    print(
        () ->
            Json.fields()
                .put("folder", folder().toString())
                .put("spots", spots)
                .put("aside", aside.map(Path::toString).orElse(null))
                .map(),
        () ->
            String.format(
                Locale.ROOT,
                "Restored the ledger in %s, which has %d spots.%n%s",
                folder(),
                spots,
                aside
                    .map(
                        path ->
                            String.format(Locale.ROOT, "The one that was there is now %s%n", path))
                    .orElse("")));
    return 0;
  }
}
