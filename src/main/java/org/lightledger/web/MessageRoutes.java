package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.MessageKind;
import org.lightledger.session.SentMessage;
import org.lightledger.session.Session;
import org.lightledger.session.mail.MailException;
import org.lightledger.session.mail.MailLetter;
import org.lightledger.session.mail.MailServer;
import org.lightledger.session.mail.Mailer;
import org.lightledger.session.outgoing.ClientLinks;
import org.lightledger.session.outgoing.Composer;
import org.lightledger.session.outgoing.Dossier;
import org.lightledger.session.outgoing.Field;
import org.lightledger.session.outgoing.Letter;
import org.lightledger.session.outgoing.SessionRedaction;
import org.lightledger.session.outgoing.Studio;
import org.lightledger.session.outgoing.Template;
import org.lightledger.share.OpenLinks;
import org.lightledger.share.ShareSubject;
import org.lightledger.store.LedgerSession;

/** What goes out to a client, each only by the owner's click and only as it was shown. */
final class MessageRoutes {
  private final House house;
  private final Supplier<String> shareAddress;
  private final ReentrantLock sending = new ReentrantLock();

  MessageRoutes(House house, Supplier<String> shareAddress) {
    this.house = house;
    this.shareAddress = shareAddress;
  }

  void register(RoutesConfig routes) {
    routes.get("/sessions/{id}/messages", ctx -> show(ctx, ""));
    routes.post("/sessions/{id}/messages/{kind}/copied", this::copied);
    routes.post("/sessions/{id}/messages/{kind}/draft", this::draft);
    routes.post("/sessions/{id}/messages/{kind}/send", this::send);
  }

  /** A message with all that its ways out need. */
  private record Ready(long sessionId, Letter letter, Studio studio, Optional<MailServer> server) {}

  private void show(Context ctx, String problem) {
    MessagesPage page = house.ledger().read(session -> page(ctx, session, problem));
    house.show(ctx, "messages", "Messages", Frame.Room.NONE, page);
  }

  private MessagesPage page(Context ctx, LedgerSession session, String problem) {
    Dossier dossier = OutgoingRoutes.find(ctx, session);
    long id = dossier.session().id();
    Map<String, String> settings = session.settings().all();
    Studio studio = Studio.of(settings);
    List<SentMessage> sent = session.messages().ofSession(id);
    ClientLinks links = links(session, id);
    return new MessagesPage(
        id,
        SessionRedaction.firstName(dossier.client()) + ", " + Words.day(dossier.session().date()),
        Arrays.stream(MessageKind.values())
            .map(kind -> message(session, dossier, studio, links, kind, sent))
            .toList(),
        sent.stream().map(message -> sent(dossier, message)).toList(),
        server(settings).map(MailServer::host).orElse(""),
        done(ctx.queryParam("done")),
        problem);
  }

  private MessagesPage.Message message(
      LedgerSession session,
      Dossier dossier,
      Studio studio,
      ClientLinks links,
      MessageKind kind,
      List<SentMessage> sent) {
    Letter letter = Composer.compose(session.messages().template(kind), dossier, studio, links);
    long before = sent.stream().filter(message -> message.kind() == kind).count();
    LocalDate due = dossier.session().date().minusDays(studio.daysBefore(kind));
    return new MessagesPage.Message(
        kind.label(),
        Words.capital(kind.label()),
        "due " + Words.shortDay(due),
        letter.toName() + (letter.toEmail() == null ? "" : " <" + letter.toEmail() + ">"),
        letter.toEmail() != null,
        letter.subject(),
        letter.body(),
        letter.missing(),
        dossier.session().state() == Session.State.CANCELLED
            ? ""
            : hint(session.messages().template(kind), links),
        seen(letter, before),
        before == 0 ? "" : "went out " + Words.count((int) before, "time", "times"));
  }

  private ClientLinks links(LedgerSession session, long sessionId) {
    return OpenLinks.of(
        session.shares().of(ShareSubject.session(sessionId)),
        house.clock().instant(),
        shareAddress.get());
  }

  /** What would let the message hold a link that it now does without. */
  private String hint(Template template, ClientLinks links) {
    boolean lacks =
        (template.fields().contains(Field.HOW_TO_ANSWER) && links.questions() == null)
            || (template.fields().contains(Field.HOW_TO_SEE_IT) && links.plan() == null);
    if (!lacks) {
      return "";
    }
    return OpenLinks.isReachable(shareAddress.get())
        ? "An open link for the client would stand in it by itself; make one on the page Share."
        : "A link for the client would stand in it, but only this computer reaches your links now;"
            + " README, \"Sharing by link\", says how to serve them.";
  }

  private static MessagesPage.Sent sent(Dossier dossier, SentMessage message) {
    return new MessagesPage.Sent(
        Words.capital(message.kind().label())
            + ", "
            + message.way().label()
            + " on "
            + Words.moment(message.at().atZone(dossier.session().zone()).toOffsetDateTime()),
        message.to(),
        message.subject(),
        message.body());
  }

  private void copied(Context ctx) {
    sending.lock();
    try {
      Ready ready = ready(ctx);
      record(ready, SentMessage.Way.COPIED, "", house.clock().instant());
      back(ctx, ready, "noted");
    } finally {
      sending.unlock();
    }
  }

  private void draft(Context ctx) {
    sending.lock();
    try {
      Ready ready = ready(ctx);
      Instant now = house.clock().instant();
      byte[] draft = MailLetter.draft(ready.letter(), ready.studio(), now);
      record(ready, SentMessage.Way.DRAFT, String.valueOf(ready.letter().toEmail()), now);
      ctx.header(
          "Content-Disposition",
          String.format(
              Locale.ROOT,
              "attachment; filename=\"session-%d-%s.eml\"",
              ready.sessionId(),
              ready.letter().kind().label()));
      ctx.contentType("message/rfc822").result(draft);
    } catch (MailException e) {
      refused(ctx, 422, e);
    } finally {
      sending.unlock();
    }
  }

  private void send(Context ctx) {
    sending.lock();
    try {
      Ready ready = ready(ctx);
      MailServer server =
          ready
              .server()
              .orElseThrow(
                  () ->
                      new PageProblem(
                          409,
                          "No mail server",
                          "There is no mail server to send by.",
                          "Enter yours under the settings of messages, or take a draft.",
                          List.of()));
      Instant now = house.clock().instant();
      new Mailer(server).send(ready.letter(), ready.studio(), now);
      record(ready, SentMessage.Way.MAIL, String.valueOf(ready.letter().toEmail()), now);
      back(ctx, ready, "sent");
    } catch (MailException e) {
      refused(ctx, 502, e);
    } finally {
      sending.unlock();
    }
  }

  private void refused(Context ctx, int status, MailException problem) {
    ctx.status(status);
    show(ctx, Words.capital(String.valueOf(problem.getMessage())) + ".");
  }

  /** What the owner has before the eyes, and nothing that has changed since. */
  private Ready ready(Context ctx) {
    MessageKind kind = kind(ctx);
    return house
        .ledger()
        .read(
            session -> {
              Dossier dossier = OutgoingRoutes.find(ctx, session);
              long id = dossier.session().id();
              Map<String, String> settings = session.settings().all();
              Studio studio = Studio.of(settings);
              Letter letter =
                  Composer.compose(
                      session.messages().template(kind), dossier, studio, links(session, id));
              long before =
                  session.messages().ofSession(id).stream()
                      .filter(message -> message.kind() == kind)
                      .count();
              if (!seen(letter, before).equals(ctx.formParam("seen"))) {
                throw new PageProblem(
                    409,
                    "Changed meanwhile",
                    "The message has changed or gone out since you looked at it. Nothing was done.",
                    "Go back, load the page again and look at the message.",
                    List.of());
              }
              if (!letter.ready()) {
                throw new PageProblem(
                    409,
                    "Not ready",
                    String.join(". ", letter.missing()) + ".",
                    "Put this right first.",
                    List.of());
              }
              return new Ready(id, letter, studio, server(settings));
            });
  }

  private void record(Ready ready, SentMessage.Way way, String to, Instant at) {
    Letter letter = ready.letter();
    house
        .ledger()
        .write(
            session ->
                session
                    .messages()
                    .sent(
                        ready.sessionId(),
                        new SentMessage(
                            letter.kind(), way, to, letter.subject(), letter.body(), at)));
  }

  private static void back(Context ctx, Ready ready, String done) {
    ctx.redirect("/sessions/" + ready.sessionId() + "/messages?done=" + done, HttpStatus.SEE_OTHER);
  }

  private static String done(@Nullable String code) {
    if ("sent".equals(code)) {
      return "Sent. It stands below.";
    }
    return "noted".equals(code) ? "Noted. It stands below." : "";
  }

  private static String seen(Letter letter, long before) {
    return letter.fingerprint() + "-" + before;
  }

  static Optional<MailServer> server(Map<String, String> settings) {
    return MailServer.of(settings, System::getenv);
  }

  static MessageKind kind(Context ctx) {
    return Arrays.stream(MessageKind.values())
        .filter(kind -> kind.label().equals(ctx.pathParam("kind")))
        .findFirst()
        .orElseThrow(() -> PageProblem.notFound("There is no such message."));
  }
}
