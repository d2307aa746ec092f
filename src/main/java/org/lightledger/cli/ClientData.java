package org.lightledger.cli;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.lightledger.session.Client;
import org.lightledger.store.Ledger;
import org.lightledger.studio.ClientArchive;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Hands over and erases all that is held about a client. */
final class ClientData {
  private ClientData() {}

  /** Hands over. */
  @Command(name = "export", description = "Writes all that is held about a client: JSON, pictures.")
  static final class Export extends Verb {
    @Parameters(paramLabel = "ID", description = "The client's number.")
    private long id;

    @Option(names = "--out", required = true, paramLabel = "FILE", description = "The new ZIP.")
    private Path out;

    Export(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      try (Ledger ledger = open()) {
        ledger.read(session -> ClientVerb.client(session, id));
        try (OutputStream zip = Files.newOutputStream(out, StandardOpenOption.CREATE_NEW)) {
          ClientArchive.write(ledger, id, zip);
        }
      } catch (FileAlreadyExistsException e) {
        throw new IllegalArgumentException(
            "--out: expected a file that does not exist yet, found " + out + "; name another", e);
      } catch (IOException e) {
        throw new UncheckedIOException("the file " + out + " can not be written", e);
      }
      print(
          () -> Map.of("file", out.toString()),
          () -> String.format(Locale.ROOT, "Written: %s%n", out));
      return 0;
    }
  }

  /** Erases. */
  @Command(
      name = "erase",
      description = "Erases a client with sessions, answers, messages, shares and pictures.")
  static final class Erase extends Verb {
    @Parameters(paramLabel = "ID", description = "The client's number.")
    private long id;

    @Option(names = "--yes", description = "Needed: an erasure can not be undone.")
    private boolean sure;

    Erase(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      if (!sure) {
        throw usage("expected --yes, for an erasure can not be undone; found none", null);
      }
      List<String> elsewhere;
      try (Ledger ledger = open()) {
        Client client = ledger.read(session -> ClientVerb.client(session, id));
        elsewhere = ledger.read(session -> session.clientRecords().namedElsewhere(client));
        ledger.change(session -> session.clientRecords().erase(id));
        ledger.scrub();
      }
      if (!elsewhere.isEmpty()) {
        note("The name still stands in your own words: " + String.join("; ", elsewhere) + ".");
      }
      note("Backups made before keep the client; so do files and messages that went out.");
      print(
          () -> Map.of("erased", id, "namedElsewhere", elsewhere),
          () -> String.format(Locale.ROOT, "Client %d is erased.%n", id));
      return 0;
    }
  }
}
