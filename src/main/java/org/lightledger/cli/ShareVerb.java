package org.lightledger.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.time.Instant;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.share.Share;
import org.lightledger.share.ShareTokens;
import org.lightledger.store.Ledger;
import org.lightledger.web.ShareFile;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(name = "share", description = "Lets a client see a shortlist.")
final class ShareVerb implements Runnable {
  @Spec private CommandSpec spec;

  static CommandLine of(Services services) {
    return new CommandLine(new ShareVerb())
        .addSubcommand(new ToFile(services))
        .addSubcommand(new ToLink(services))
        .addSubcommand(new Revoke(services));
  }

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(), "expected one of file, link, revoke, found none");
  }

  /** Writes the file that needs no server. */
  @Command(name = "file", description = "Writes one file that opens without a server.")
  static final class ToFile extends Verb {
    @Parameters(paramLabel = "SHORTLIST", description = "The shortlist's number.")
    private long shortlistId;

    @Option(names = "--out", required = true, paramLabel = "FILE", description = "The new file.")
    private Path out;

    @Option(
        names = "--exact-positions",
        description = "Let the client see where exactly the spots lie.")
    private boolean exactPositions;

    ToFile(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      try (Ledger ledger = open()) {
        String html = ShareFile.html(ledger, shortlistId, exactPositions);
        Files.writeString(out, html, StandardOpenOption.CREATE_NEW);
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

  /** Makes a link. */
  @Command(name = "link", description = "Makes a link that works while the pages are served.")
  static final class ToLink extends Verb {
    @Parameters(paramLabel = "SHORTLIST", description = "The shortlist's number.")
    private long shortlistId;

    @Option(
        names = "--exact-positions",
        description = "Let the client see where exactly the spots lie.")
    private boolean exactPositions;

    @Option(names = "--days", paramLabel = "N", description = "The link ends after so many days.")
    private @Nullable Integer days;

    ToLink(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      Instant now = services.clock().instant();
      Integer ends = days;
      if (ends != null && ends < 1) {
        throw new IllegalArgumentException("--days: expected 1 or more, found " + ends);
      }
      String token = new ShareTokens().next();
      try (Ledger ledger = open()) {
        Share share =
            ledger.write(
                session -> {
                  session
                      .shares()
                      .create(
                          shortlistId,
                          token,
                          exactPositions,
                          now,
                          ends == null ? null : now.plus(Duration.ofDays(ends)));
                  return session.shares().find(token).orElseThrow();
                });
        String path = "/s/" + token;
        print(
            () -> ShortlistOutput.json(share, path),
            () -> String.format(Locale.ROOT, "Share %d: %s%n", share.id(), path));
      }
      return 0;
    }
  }

  /** Takes a link back. */
  @Command(name = "revoke", description = "Takes a link back.")
  static final class Revoke extends Verb {
    @Parameters(paramLabel = "SHARE", description = "The share's number.")
    private long shareId;

    Revoke(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      Instant now = services.clock().instant();
      try (Ledger ledger = open()) {
        ledger.write(
            session -> {
              session.shares().revoke(shareId, now);
              return shareId;
            });
      }
      print(
          () -> Map.of("revoked", shareId),
          () -> String.format(Locale.ROOT, "Share %d no longer works.%n", shareId));
      return 0;
    }
  }
}
