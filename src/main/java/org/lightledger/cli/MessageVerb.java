package org.lightledger.cli;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.MessageKind;
import org.lightledger.session.SentMessage;
import org.lightledger.session.mail.MailException;
import org.lightledger.session.mail.MailLetter;
import org.lightledger.session.mail.MailServer;
import org.lightledger.session.mail.Mailer;
import org.lightledger.session.outgoing.ClientLinks;
import org.lightledger.session.outgoing.Composer;
import org.lightledger.session.outgoing.Letter;
import org.lightledger.session.outgoing.Studio;
import org.lightledger.share.OpenLinks;
import org.lightledger.share.ShareSubject;
import org.lightledger.store.Ledger;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
    name = "message",
    description = "Shows a message to a client, writes it as a draft, or sends it.")
final class MessageVerb extends Verb {
  @Parameters(index = "0", paramLabel = "SESSION", description = "The session's number.")
  private long sessionId;

  @Parameters(index = "1", paramLabel = "KIND", description = "questions, plan or reminder.")
  private String kind;

  @Option(
      names = "--out",
      paramLabel = "FILE.eml",
      description = "Write a draft for a mail program, and note it as taken.")
  private @Nullable Path out;

  @Option(names = "--send", description = "Send it by your mail server, and note it as sent.")
  private boolean send;

  @Option(
      names = "--share-address",
      paramLabel = "URL",
      description =
          "How clients reach your links, as at serve; an open link of the session then stands in the"
              + " message.")
  private String shareAddress = "";

  MessageVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    MessageKind wanted = kind();
    Path file = out;
    if (send && file != null) {
      throw usage("expected --out or --send, found both", null);
    }
    checkShareAddress(shareAddress);
    try (Ledger ledger = open()) {
      Map<String, String> settings = ledger.read(session -> session.settings().all());
      Studio studio = Studio.of(settings);
      Instant now = services.clock().instant();
      Letter letter =
          Composer.compose(
              ledger.read(session -> session.messages().template(wanted)),
              SessionFiles.dossier(ledger, sessionId),
              studio,
              links(ledger, now));
      String done = "shown";
      if (file != null) {
        SessionFiles.write(file, MailLetter.draft(letter, studio, now));
        note(ledger, letter, SentMessage.Way.DRAFT, now);
        done = "draft";
      } else if (send) {
        new Mailer(server(settings)).send(letter, studio, now);
        note(ledger, letter, SentMessage.Way.MAIL, now);
        done = "sent";
      }
      report(letter, done);
      return 0;
    } catch (MailException e) {
      note(String.valueOf(e.getMessage()));
      return 1;
    }
  }

  private ClientLinks links(Ledger ledger, Instant now) {
    return OpenLinks.of(
        ledger.read(session -> session.shares().of(ShareSubject.session(sessionId))),
        now,
        shareAddress);
  }

  private MessageKind kind() {
    return Arrays.stream(MessageKind.values())
        .filter(known -> known.label().equals(kind.toLowerCase(Locale.ROOT)))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "expected one of "
                        + Arrays.stream(MessageKind.values())
                            .map(MessageKind::label)
                            .collect(Collectors.joining(", "))
                        + ", found "
                        + kind));
  }

  private static MailServer server(Map<String, String> settings) {
    return MailServer.of(settings, System::getenv)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "--send: expected a mail server in the settings, found none; enter yours on"
                        + " the page of the settings of messages, or take a draft with --out"));
  }

  private void note(Ledger ledger, Letter letter, SentMessage.Way way, Instant at) {
    ledger.write(
        session ->
            session
                .messages()
                .sent(
                    sessionId,
                    new SentMessage(
                        letter.kind(),
                        way,
                        String.valueOf(letter.toEmail()),
                        letter.subject(),
                        letter.body(),
                        at)));
  }

  private void report(Letter letter, String done) {
    letter.missing().forEach(missing -> note("It can not go out: " + missing));
    print(
        () ->
            Json.fields()
                .put("kind", letter.kind().label())
                .put("done", done)
                .put("to", letter.toName())
                .put("email", letter.toEmail())
                .put("subject", letter.subject())
                .put("body", letter.body())
                .put("missing", letter.missing())
                .map(),
        () ->
            String.format(
                Locale.ROOT,
                "To: %s%s%nSubject: %s%n%n%s%n",
                letter.toName(),
                letter.toEmail() == null ? "" : " <" + letter.toEmail() + ">",
                letter.subject(),
                letter.body()));
  }
}
