package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.lightledger.session.Client;
import org.lightledger.studio.ClientArchive;

/** Hands over and erases all that is held about a client. */
final class ClientDataRoutes {
  private static final Map<String, String[]> WORDS =
      Map.of(
          "sessions", new String[] {"session", "sessions"},
          "answers", new String[] {"answer", "answers"},
          "sent_messages", new String[] {"sent message", "sent messages"},
          "shares", new String[] {"share", "shares"},
          "outfit_pictures", new String[] {"picture of an outfit", "pictures of outfits"});

  private final House house;

  ClientDataRoutes(House house) {
    this.house = house;
  }

  void register(RoutesConfig routes) {
    routes.get("/clients/{id}/data", ctx -> show(ctx, List.of()));
    routes.get("/clients/{id}/export", this::export);
    routes.post("/clients/{id}/erase", this::erase);
  }

  private void show(Context ctx, List<FieldProblem> problems) {
    long id = House.id(ctx, "id");
    ClientDataPage page =
        house
            .ledger()
            .read(
                session -> {
                  Client client = SessionPages.client(session, id);
                  List<String> held = new ArrayList<>();
                  session
                      .clientRecords()
                      .all(id)
                      .forEach(
                          (table, rows) -> {
                            String[] words = WORDS.get(table);
                            if (words != null && !rows.isEmpty()) {
                              held.add(Words.count(rows.size(), words[0], words[1]));
                            }
                          });
                  return new ClientDataPage(
                      id,
                      client.name(),
                      held,
                      session.clientRecords().namedElsewhere(client),
                      problems);
                });
    house.show(ctx, "clientdata", "What is held about a client", Frame.Room.SESSIONS, page);
  }

  private void export(Context ctx) {
    long id = House.id(ctx, "id");
    house.ledger().read(session -> SessionPages.client(session, id));
    ByteArrayOutputStream zip = new ByteArrayOutputStream();
    try {
      ClientArchive.write(house.ledger(), id, zip);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    ctx.header("Content-Disposition", "attachment; filename=\"client-" + id + ".zip\"");
    ctx.contentType("application/zip").result(zip.toByteArray());
  }

  private void erase(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    long id = House.id(ctx, "id");
    if (!fields.ticked("sure")) {
      ctx.status(422);
      show(
          ctx,
          List.of(
              new FieldProblem(
                  "sure", "Erase", "expected the tick that says you are sure, found none")));
      return;
    }
    house
        .ledger()
        .change(
            session -> {
              SessionPages.client(session, id);
              session.clientRecords().erase(id);
            });
    house.scrub("Erased");
    ctx.redirect("/clients", HttpStatus.SEE_OTHER);
  }
}
