package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Client;
import org.lightledger.session.Contact;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.Studio;

/** Who is photographed. */
final class ClientRoutes {
  private static final int MOST_NAME = 200;
  private static final int MOST_TEXT = 4000;

  private final House house;
  private final Studio studio;

  ClientRoutes(House house, Studio studio) {
    this.house = house;
    this.studio = studio;
  }

  void register(RoutesConfig routes) {
    routes.get("/clients", this::list);
    routes.get("/clients/new", ctx -> show(ctx, 0, null));
    routes.post("/clients", ctx -> save(ctx, 0));
    routes.get("/clients/{id}", ctx -> show(ctx, House.id(ctx, "id"), null));
    routes.post("/clients/{id}", ctx -> save(ctx, House.id(ctx, "id")));
  }

  private void list(Context ctx) {
    ClientPages.All page =
        house
            .ledger()
            .read(
                session ->
                    new ClientPages.All(
                        session.clients().all().stream()
                            .map(client -> row(session, client))
                            .toList()));
    house.show(ctx, "clients", "Clients", Frame.Room.SESSIONS, page);
  }

  private static ClientPages.Row row(LedgerSession session, Client client) {
    Contact writesTo = client.writesTo();
    String reached =
        writesTo.email() != null
            ? writesTo.email()
            : writesTo.phone() != null ? writesTo.phone() : "no address yet";
    Client.Guardian guardian = client.guardian();
    return new ClientPages.Row(
        "/clients/" + client.id(),
        client.name(),
        (client.minor() && guardian != null ? "under age, through " + guardian.name() + ", " : "")
            + reached,
        Words.count(session.sessions().ofClient(client.id()).size(), "session", "sessions"));
  }

  private void show(Context ctx, long id, @Nullable Fields sent) {
    ClientPages.One page =
        house
            .ledger()
            .read(
                session -> {
                  Client kept = id == 0 ? null : SessionPages.client(session, id);
                  List<SessionsPage.Row> sessions =
                      session.sessions().ofClient(id).stream()
                          .map(
                              booked ->
                                  SessionRoutes.row(session, booked, studio.span(session, booked)))
                          .toList();
                  return new ClientPages.One(
                      id,
                      form(kept, sent),
                      sessions,
                      sent == null ? List.of() : sent.problems(),
                      ctx.queryParam("saved") != null);
                });
    house.show(ctx, "client", id == 0 ? "New client" : "Client", Frame.Room.SESSIONS, page);
  }

  private static ClientPages.Form form(@Nullable Client kept, @Nullable Fields sent) {
    if (sent != null) {
      return new ClientPages.Form(
          sent.raw("name"),
          sent.raw("called"),
          sent.ticked("minor"),
          sent.raw("email"),
          sent.raw("phone"),
          sent.raw("guardian"),
          sent.raw("guardian-email"),
          sent.raw("guardian-phone"),
          sent.raw("home"),
          sent.raw("notes"));
    }
    if (kept == null) {
      return new ClientPages.Form("", "", false, "", "", "", "", "", "", "");
    }
    Client.Guardian guardian = kept.guardian();
    Contact other = guardian == null ? Contact.NONE : guardian.contact();
    return new ClientPages.Form(
        kept.name(),
        kept.calledName(),
        kept.minor(),
        or(kept.contact().email()),
        or(kept.contact().phone()),
        guardian == null ? "" : guardian.name(),
        or(other.email()),
        or(other.phone()),
        kept.homeAddress(),
        kept.notes());
  }

  private static String or(@Nullable String text) {
    return text == null ? "" : text;
  }

  private void save(Context ctx, long id) {
    Fields fields = new Fields(ctx::formParams);
    Client client = read(fields, id);
    if (client == null) {
      ctx.status(422);
      show(ctx, id, fields);
      return;
    }
    long kept =
        house
            .ledger()
            .write(
                session -> {
                  if (id == 0) {
                    return session.clients().add(client);
                  }
                  SessionPages.client(session, id);
                  session.clients().update(client);
                  return id;
                });
    ctx.redirect("/clients/" + kept + "?saved=1", HttpStatus.SEE_OTHER);
  }

  private static @Nullable Client read(Fields fields, long id) {
    String name = fields.line("name", "Name", MOST_NAME);
    String called = fields.line("called", "Called", MOST_NAME);
    boolean minor = fields.ticked("minor");
    Contact contact = contact(fields, "email", "phone", "");
    Contact other = contact(fields, "guardian-email", "guardian-phone", "Guardian's ");
    String guardian = "";
    if (minor || !fields.raw("guardian").isEmpty()) {
      guardian = fields.line("guardian", "Guardian", MOST_NAME);
    }
    if (minor
        && other.isEmpty()
        && fields.raw("guardian-email").isEmpty()
        && fields.raw("guardian-phone").isEmpty()) {
      fields.problem(
          "guardian-email",
          "Guardian's e-mail",
          "expected an address or a telephone number for a minor's guardian, found neither");
    }
    if (guardian.isEmpty() && !other.isEmpty() && !minor) {
      fields.problem(
          "guardian", "Guardian", "expected whose address or number it is, found nothing");
    }
    String home = fields.text("home", "Home address", MOST_TEXT);
    String notes = fields.text("notes", "Notes", MOST_TEXT);
    return fields.problems().isEmpty()
        ? new Client(
            id,
            name,
            called,
            minor,
            contact,
            guardian.isEmpty() ? null : new Client.Guardian(guardian, other),
            home,
            notes)
        : null;
  }

  /** Each field is read by itself, so that both can be named as wrong. */
  private static Contact contact(Fields fields, String email, String phone, String whose) {
    Contact byMail = Contact.NONE;
    Contact byPhone = Contact.NONE;
    try {
      byMail = Contact.parse(fields.raw(email), "");
    } catch (IllegalArgumentException e) {
      fields.problem(email, Words.capital(whose + "e-mail"), String.valueOf(e.getMessage()));
    }
    try {
      byPhone = Contact.parse("", fields.raw(phone));
    } catch (IllegalArgumentException e) {
      fields.problem(phone, Words.capital(whose + "telephone"), String.valueOf(e.getMessage()));
    }
    return new Contact(byMail.email(), byPhone.phone());
  }
}
