package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import org.lightledger.session.PackItem;
import org.lightledger.store.LedgerSession;

/** What is packed for a session. */
final class PackRoutes {
  private static final int MOST_LINE = 200;

  private final House house;
  private final SessionPages pages;

  PackRoutes(House house, SessionPages pages) {
    this.house = house;
    this.pages = pages;
  }

  void register(RoutesConfig routes) {
    routes.post("/sessions/{id}/items", this::addItem);
    routes.post("/sessions/{id}/items/{item}/tick", this::tick);
    routes.post("/sessions/{id}/items/{item}/remove", this::removeItem);
  }

  private void addItem(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    String words = fields.line("item", "Thing to pack", MOST_LINE);
    if (!fields.problems().isEmpty()) {
      pages.refuse(ctx, new Sent("item", fields));
      return;
    }
    packed(ctx, pages.change(ctx, session -> session.packing().add(House.id(ctx, "id"), words)));
  }

  private void tick(Context ctx) {
    long item = House.id(ctx, "item");
    boolean done = ctx.formParams("done").contains("yes");
    packed(
        ctx,
        pages.change(
            ctx,
            session -> {
              requireItem(ctx, session, item);
              session.packing().tick(House.id(ctx, "id"), item, done, house.clock().instant());
            }));
  }

  private void removeItem(Context ctx) {
    long item = House.id(ctx, "item");
    packed(
        ctx,
        pages.change(
            ctx,
            session -> {
              requireItem(ctx, session, item);
              session.packing().remove(House.id(ctx, "id"), item);
            }));
  }

  private static void requireItem(Context ctx, LedgerSession session, long item) {
    if (session.packing().items(House.id(ctx, "id")).stream()
        .map(PackItem::id)
        .noneMatch(id -> id == item)) {
      throw PageProblem.notFound("That thing is no longer on the list.");
    }
  }

  private void packed(Context ctx, long id) {
    if (Pages.wantsPart(ctx)) {
      PackPart part =
          house.ledger().read(session -> SessionPages.packing(session, id, Sent.NOTHING));
      house.pages().part(ctx, "packpart", part);
    } else {
      ctx.redirect("/sessions/" + id + "#pack", HttpStatus.SEE_OTHER);
    }
  }
}
