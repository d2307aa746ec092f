package org.lightledger.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Locale;
import java.util.Map;
import org.lightledger.session.outgoing.Dossier;
import org.lightledger.store.DossierReader;
import org.lightledger.store.Ledger;
import org.lightledger.studio.CalendarKeeping;
import org.lightledger.web.CallSheets;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** The files that a session goes out in. */
abstract class SessionFiles extends Verb {
  @Parameters(paramLabel = "SESSION", description = "The session's number.")
  private long sessionId;

  @Option(names = "--out", required = true, paramLabel = "FILE", description = "The new file.")
  private Path out;

  SessionFiles(Services services) {
    super(services);
  }

  abstract byte[] content(Ledger ledger, long session);

  @Override
  public Integer call() {
    try (Ledger ledger = open()) {
      write(out, content(ledger, sessionId));
    }
    print(
        () -> Map.of("file", out.toString()),
        () -> String.format(Locale.ROOT, "Written: %s%n", out));
    return 0;
  }

  /** What the ledger holds of a session. */
  static Dossier dossier(Ledger ledger, long sessionId) {
    return ledger
        .read(session -> DossierReader.read(session, sessionId))
        .orElseThrow(() -> noSession(sessionId));
  }

  private static IllegalArgumentException noSession(long id) {
    return new IllegalArgumentException(
        "expected the number of a session, found " + id + ", which the ledger does not have");
  }

  /** Writes a new file. */
  static void write(Path file, byte[] content) {
    try {
      Files.write(file, content, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    } catch (FileAlreadyExistsException e) {
      throw new IllegalArgumentException(
          "--out: expected a file that does not exist yet, found " + file + "; name another", e);
    } catch (IOException e) {
      throw new UncheckedIOException("the file " + file + " can not be written", e);
    }
  }

  @Command(name = "calendar", description = "Writes a session and what is due for your calendar.")
  static final class CalendarVerb extends SessionFiles {
    CalendarVerb(Services services) {
      super(services);
    }

    @Override
    byte[] content(Ledger ledger, long session) {
      makeSkylines(ledger);
      return new CalendarKeeping(ledger, services.studio(ledger), services.sun(), services.clock())
          .file(session)
          .orElseThrow(() -> noSession(session))
          .getBytes(StandardCharsets.UTF_8);
    }
  }

  @Command(name = "call-sheet", description = "Writes the call sheet of a session to print (PDF).")
  static final class CallSheetVerb extends SessionFiles {
    CallSheetVerb(Services services) {
      super(services);
    }

    @Override
    byte[] content(Ledger ledger, long session) {
      makeSkylines(ledger);
      return CallSheets.of(ledger, services.sun(), services.clock()).pdf(session);
    }
  }
}
