package org.lightledger.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.time.Instant;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.share.OpenLinks;
import org.lightledger.share.ReplyFile;
import org.lightledger.share.Share;
import org.lightledger.share.ShareSubject;
import org.lightledger.share.ShareTerms;
import org.lightledger.share.ShareTokens;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;
import org.lightledger.web.ReplyDesk;
import org.lightledger.web.ShareFile;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(name = "share", description = "Lets a client see a shortlist or a session, and answer.")
final class ShareVerb implements Runnable {
  @Spec private CommandSpec spec;

  static CommandLine of(Services services) {
    return new CommandLine(new ShareVerb())
        .addSubcommand(new ToFile(services))
        .addSubcommand(new ToLink(services))
        .addSubcommand(new Revoke(services))
        .addSubcommand(new Take(services));
  }

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(), "expected one of file, link, revoke, take, found none");
  }

  /** What is shared, and what of it. */
  static final class Shown {
    @Parameters(
        paramLabel = "SHORTLIST",
        description = "The shortlist's number, or session:NUMBER for a session.")
    private String subject = "";

    @Option(
        names = "--exact-positions",
        description = "Let the client see where exactly the spots lie.")
    private boolean exactPositions;

    @Option(names = "--without-plan", description = "Do not show a session's plan.")
    private boolean withoutPlan;

    @Option(names = "--without-questions", description = "Do not ask your questions.")
    private boolean withoutQuestions;

    @Option(names = "--message", paramLabel = "TEXT", description = "Words to a session's client.")
    private String message = "";

    @Option(names = "--client", paramLabel = "ID", description = "For which client a shortlist is.")
    private @Nullable Long clientId;

    @Option(names = "--days", paramLabel = "N", description = "It ends after so many days.")
    private @Nullable Integer days;

    Share make(LedgerSession session, boolean asFile, Instant now) {
      ShareSubject shown = ShareSubject.parse(subject);
      require(session, shown);
      Integer ends = days;
      if (ends != null && ends < 1) {
        throw new IllegalArgumentException("--days: expected 1 or more, found " + ends);
      }
      ShareTokens tokens = new ShareTokens();
      long id =
          session
              .shares()
              .create(
                  shown,
                  new ShareTerms(
                      asFile,
                      clientId,
                      message,
                      exactPositions,
                      shown.isSession() && !withoutPlan,
                      shown.isSession() && !withoutQuestions,
                      ends == null ? null : now.plus(Duration.ofDays(ends))),
                  tokens.next(),
                  tokens.keys(),
                  now);
      return session.shares().find(id).orElseThrow();
    }

    private static void require(LedgerSession session, ShareSubject shown) {
      boolean there =
          shown.isSession()
              ? session.sessions().find(shown.id()).isPresent()
              : session.shortlists().find(shown.id()).isPresent();
      if (!there) {
        throw new IllegalArgumentException(
            "expected the number of a "
                + shown.kind().label()
                + ", found "
                + shown.id()
                + ", which the ledger does not have");
      }
    }
  }

  /** Writes the file that needs no server. */
  @Command(
      name = "file",
      description = "Writes one file that opens without a server, and takes answers.")
  static final class ToFile extends Verb {
    @Mixin private Shown shown = new Shown();

    @Option(names = "--out", required = true, paramLabel = "FILE", description = "The new file.")
    private Path out;

    ToFile(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      Share share;
      try (Ledger ledger = open()) {
        if (Files.exists(out)) {
          throw new FileAlreadyExistsException(out.toString());
        }
        Instant now = services.clock().instant();
        share = ledger.write(session -> shown.make(session, true, now));
        String html = ShareFile.html(ledger, services.sun(), share.id());
        Files.writeString(out, html, StandardOpenOption.CREATE_NEW);
      } catch (FileAlreadyExistsException e) {
        throw new IllegalArgumentException(
            "--out: expected a file that does not exist yet, found " + out + "; name another", e);
      } catch (IOException e) {
        throw new UncheckedIOException("the file " + out + " can not be written", e);
      }
      print(
          () -> Map.of("file", out.toString(), "shareId", share.id()),
          () -> String.format(Locale.ROOT, "Written: %s (share %d)%n", out, share.id()));
      return 0;
    }
  }

  /** Makes a link. */
  @Command(name = "link", description = "Makes a link that works while the pages are served.")
  static final class ToLink extends Verb {
    @Mixin private Shown shown = new Shown();

    @Option(
        names = "--share-address",
        paramLabel = "URL",
        description = "How clients reach your links, as at serve; the whole address is then told.")
    private String shareAddress = "";

    ToLink(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      checkShareAddress(shareAddress);
      Instant now = services.clock().instant();
      try (Ledger ledger = open()) {
        Share share = ledger.write(session -> shown.make(session, false, now));
        String address = OpenLinks.address(share, shareAddress);
        print(
            () -> ShortlistOutput.json(share, shareAddress),
            () -> String.format(Locale.ROOT, "Share %d: %s%n", share.id(), address));
      }
      if (shareAddress.isEmpty()) {
        note(
            "It opens once your links are served: \"serve --share-host 0.0.0.0 --share-address URL\","
                + " where URL is how clients reach this computer and goes before it.");
      }
      return 0;
    }
  }

  /** Takes a link back. */
  @Command(name = "revoke", description = "Takes a link or a file back.")
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
        ledger.change(session -> session.shares().revoke(shareId, now));
      }
      print(
          () -> Map.of("revoked", shareId),
          () -> String.format(Locale.ROOT, "Share %d no longer works.%n", shareId));
      return 0;
    }
  }

  /** Takes in what a client returned. */
  @Command(name = "take", description = "Takes in the file that a client sent back.")
  static final class Take extends Verb {
    @Parameters(paramLabel = "FILE", description = "The file that the client's page saved.")
    private Path file;

    Take(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      String content = content();
      Instant now = services.clock().instant();
      try (Ledger ledger = open()) {
        Share share = ledger.write(session -> ReplyDesk.takeFile(session, content, now));
        print(
            () -> Map.of("shareId", share.id()),
            () ->
                String.format(
                    Locale.ROOT,
                    "Taken in: the reply to share %d, of %s.%n",
                    share.id(),
                    share.subject()));
      }
      return 0;
    }

    private String content() {
      try {
        long bytes = Files.size(file);
        if (bytes > ReplyFile.MOST_BYTES) {
          throw new IllegalArgumentException(
              "expected a client's reply of at most "
                  + ReplyFile.MOST_BYTES / 1024
                  + " kB, found "
                  + bytes / 1024
                  + " kB in "
                  + file);
        }
        return new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
      } catch (IOException e) {
        throw new IllegalArgumentException(
            "expected the file that a client sent, found nothing that can be read in " + file, e);
      }
    }
  }
}
