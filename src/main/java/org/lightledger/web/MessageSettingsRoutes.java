package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.MessageKind;
import org.lightledger.session.mail.MailServer;
import org.lightledger.session.outgoing.Field;
import org.lightledger.session.outgoing.Studio;
import org.lightledger.session.outgoing.Template;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.SettingStore;

/** The settings of messages: the studio, the wording, the mail server. */
final class MessageSettingsRoutes {
  private static final int MOST_LINE = 300;
  private static final int MOST_TEXT = 20_000;

  /** The settings of plain fields, with the words of their labels. */
  private static final Map<String, String> FIELDS = new LinkedHashMap<>();

  static {
    FIELDS.put(Studio.NAME, "Name of the studio");
    FIELDS.put(Studio.EMAIL, "E-mail address");
    FIELDS.put(Studio.PHONE, "Telephone");
    FIELDS.put(Studio.COMMON_QUESTIONS, "Answers to common questions");
    FIELDS.put(Studio.BRING, "What clients bring");
    FIELDS.put(MailServer.HOST, "Mail server");
    FIELDS.put(MailServer.PORT, "Port");
    FIELDS.put(MailServer.SECURITY, "Security");
    FIELDS.put(MailServer.USER, "Name to log in with");
  }

  private final House house;

  MessageSettingsRoutes(House house) {
    this.house = house;
  }

  void register(RoutesConfig routes) {
    routes.get("/settings/messages", ctx -> show(ctx, Map.of(), null, List.of()));
    routes.post("/settings/messages", this::save);
    routes.post("/settings/messages/{kind}", this::keepTemplate);
    routes.post("/settings/messages/{kind}/standard", this::standardTemplate);
  }

  /** The page; what was just typed goes before what is kept. */
  private void show(
      Context ctx,
      Map<String, String> typed,
      MessageSettingsPage.@Nullable Wording wording,
      List<FieldProblem> problems) {
    MessageSettingsPage page =
        house.ledger().read(session -> page(ctx, session, typed, wording, problems));
    house.show(ctx, "messagesettings", "Settings of messages", Frame.Room.NONE, page);
  }

  private static MessageSettingsPage page(
      Context ctx,
      LedgerSession session,
      Map<String, String> typed,
      MessageSettingsPage.@Nullable Wording wording,
      List<FieldProblem> problems) {
    Map<String, String> kept = session.settings().all();
    Studio studio = Studio.of(kept);
    Map<String, String> values = new HashMap<>();
    values.put(Studio.BRING, studio.bring());
    FIELDS.keySet().stream()
        .filter(kept::containsKey)
        .forEach(field -> values.put(field, kept.getOrDefault(field, "")));
    values.putAll(typed);
    String security = values.getOrDefault(MailServer.SECURITY, "");
    return new MessageSettingsPage(
        values,
        Arrays.stream(MailServer.Security.values())
            .map(
                way ->
                    new MessageSettingsPage.Choice(
                        way.code(),
                        way.label() + " (usually port " + way.usualPort() + ")",
                        way.code().equals(security)))
            .toList(),
        kept.containsKey(MailServer.PASSWORD),
        System.getenv(MailServer.PASSWORD_VARIABLE) != null,
        MailServer.PASSWORD_VARIABLE,
        Arrays.stream(MessageKind.values())
            .map(
                kind ->
                    wording != null && wording.kind().equals(kind.label())
                        ? wording
                        : wording(session, kind))
            .toList(),
        List.of(Field.values()),
        problems,
        ctx.queryParam("saved") != null);
  }

  private static MessageSettingsPage.Wording wording(LedgerSession session, MessageKind kind) {
    Template template = session.messages().template(kind);
    return new MessageSettingsPage.Wording(
        kind.label(),
        Words.capital(kind.label()),
        template.subject(),
        template.body(),
        session.messages().ownTemplate(kind).isPresent());
  }

  private void save(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    Map<String, String> typed = new LinkedHashMap<>();
    FIELDS.forEach(
        (field, label) ->
            typed.put(
                field,
                fields.text(field, label, Studio.BRING.equals(field) ? MOST_TEXT : MOST_LINE)));
    String password = ctx.formParam(MailServer.PASSWORD);
    boolean forget = fields.ticked("forget-password");
    checked(fields, typed);
    if (!fields.problems().isEmpty()) {
      ctx.status(422);
      show(ctx, typed, null, fields.problems());
      return;
    }
    house
        .ledger()
        .write(
            session -> {
              SettingStore settings = session.settings();
              typed.forEach(
                  (field, value) -> {
                    if (value.isEmpty()) {
                      settings.remove(field);
                    } else {
                      settings.set(field, value);
                    }
                  });
              if (forget) {
                settings.remove(MailServer.PASSWORD);
              } else if (password != null && !password.isEmpty()) {
                settings.set(MailServer.PASSWORD, password);
              }
              return typed.size();
            });
    ctx.redirect("/settings/messages?saved=1", HttpStatus.SEE_OTHER);
  }

  /** Each setting by itself, so that every bad one is named with its own field. */
  private static void checked(Fields fields, Map<String, String> typed) {
    typed.forEach(
        (field, value) -> {
          boolean ofServer = field.startsWith("mail.");
          Map<String, String> alone = new HashMap<>();
          if (!value.isEmpty()) {
            alone.put(field, value);
          }
          String host = typed.getOrDefault(MailServer.HOST, "");
          if (ofServer && !host.isEmpty()) {
            alone.put(
                MailServer.HOST,
                MailServer.SECURITY.equals(field) || MailServer.HOST.equals(field)
                    ? host
                    : "localhost");
          }
          try {
            if (ofServer) {
              MailServer.of(alone, name -> null);
            } else {
              Studio.of(alone);
            }
          } catch (IllegalArgumentException e) {
            fields.problem(
                field, FIELDS.getOrDefault(field, field), String.valueOf(e.getMessage()));
          }
        });
  }

  private void keepTemplate(Context ctx) {
    MessageKind kind = MessageRoutes.kind(ctx);
    Fields fields = new Fields(ctx::formParams);
    String subject = fields.raw("subject");
    String body = fields.raw("body").replace("\r\n", "\n");
    try {
      Template template = new Template(kind, subject, body);
      house
          .ledger()
          .write(
              session -> {
                session.messages().keep(template);
                return kind;
              });
      ctx.redirect("/settings/messages?saved=1", HttpStatus.SEE_OTHER);
    } catch (IllegalArgumentException e) {
      ctx.status(422);
      show(
          ctx,
          Map.of(),
          new MessageSettingsPage.Wording(
              kind.label(), Words.capital(kind.label()), subject, body, true),
          List.of(
              new FieldProblem(
                  "body-" + kind.label(),
                  Words.capital(kind.label()),
                  String.valueOf(e.getMessage()))));
    }
  }

  private void standardTemplate(Context ctx) {
    MessageKind kind = MessageRoutes.kind(ctx);
    house
        .ledger()
        .write(
            session -> {
              session.messages().forget(kind);
              return kind;
            });
    ctx.redirect("/settings/messages?saved=1", HttpStatus.SEE_OTHER);
  }
}
