package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Session;

/** What a session is to be, how far it is, and its deletion. */
final class SessionStateRoutes {
  private static final int MOST_TEXT = 4000;

  private final House house;
  private final SessionPages pages;

  SessionStateRoutes(House house, SessionPages pages) {
    this.house = house;
    this.pages = pages;
  }

  void register(RoutesConfig routes) {
    routes.post("/sessions/{id}/brief", this::describe);
    routes.post("/sessions/{id}/state", this::setState);
    routes.post("/sessions/{id}/delete", this::delete);
  }

  private Session find(Context ctx) {
    return house.ledger().read(session -> SessionPages.find(ctx, session));
  }

  private void describe(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    String wishes = fields.text("wishes", "Wishes", MOST_TEXT);
    String pictures = fields.text("pictures", "Pictures wanted", MOST_TEXT);
    String talking = fields.text("talking", "To talk about", MOST_TEXT);
    String goal = fields.text("goal", "Goal", MOST_TEXT);
    String notes = fields.text("notes", "Notes", MOST_TEXT);
    if (!fields.problems().isEmpty()) {
      pages.refuse(ctx, new Sent("brief", fields));
      return;
    }
    long id =
        pages.change(
            ctx,
            (session, booked) ->
                session
                    .sessions()
                    .describe(
                        booked.id(),
                        new Session.Brief(
                            wishes, pictures, talking, goal, booked.brief().outcome(), notes)));
    ctx.redirect("/sessions/" + id + "?saved=1#brief", HttpStatus.SEE_OTHER);
  }

  private void setState(Context ctx) {
    Session booked = find(ctx);
    Fields fields = new Fields(ctx::formParams);
    String outcome = fields.text("outcome", "How it went", MOST_TEXT);
    Session.State state = state(fields);
    if (state == Session.State.DONE) {
      pages.whyNotDone(booked).ifPresent(why -> fields.problem("state", "State", why));
    }
    boolean goal = !booked.brief().goal().isBlank();
    if (state == Session.State.DONE && goal && outcome.isEmpty()) {
      fields.problem(
          "outcome", "How it went", "expected a word on how it went with the goal, found nothing");
    }
    if (state == null || !fields.problems().isEmpty()) {
      pages.refuse(ctx, new Sent("state", fields));
      return;
    }
    pages.change(
        ctx,
        (session, now) -> {
          Session.Brief was = now.brief();
          session.sessions().setState(now.id(), state);
          session
              .sessions()
              .describe(
                  now.id(),
                  new Session.Brief(
                      was.wishes(),
                      was.pictures(),
                      was.talkingPoints(),
                      was.goal(),
                      outcome,
                      was.notes()));
        });
    ctx.redirect("/sessions/" + booked.id() + "?saved=1#state", HttpStatus.SEE_OTHER);
  }

  private static Session.@Nullable State state(Fields fields) {
    for (Session.State state : Session.State.values()) {
      if (state.name().equals(fields.raw("state"))) {
        return state;
      }
    }
    fields.problem(
        "state",
        "State",
        "expected one of " + Session.State.list() + "; found " + Fields.found(fields.raw("state")));
    return null;
  }

  private void delete(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    if (!fields.ticked("sure")) {
      fields.problem("sure", "Delete", "expected the tick that says you are sure, found none");
      pages.refuse(ctx, new Sent("delete", fields));
      return;
    }
    house
        .ledger()
        .change(session -> session.sessionRecords().delete(SessionPages.find(ctx, session).id()));
    house.scrub("Deleted");
    ctx.redirect("/sessions", HttpStatus.SEE_OTHER);
  }
}
