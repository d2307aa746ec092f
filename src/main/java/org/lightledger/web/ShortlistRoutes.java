package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;
import org.lightledger.share.ShareSubject;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.ShortlistEntry;

/** Shortlists: what is proposed to a client, in which order and with which words. */
final class ShortlistRoutes {
  private static final int MOST_TITLE = 120;
  private static final int MOST_TEXT = 4000;

  private final House house;
  private final SharingRoutes sharing;

  ShortlistRoutes(House house, SharingRoutes sharing) {
    this.house = house;
    this.sharing = sharing;
  }

  void register(RoutesConfig routes) {
    routes.get("/shortlists", ctx -> list(ctx, List.of()));
    routes.post("/shortlists", this::create);
    routes.post("/shortlists/keep", this::keep);
    routes.get("/shortlists/{id}", ctx -> show(ctx, List.of()));
    routes.post("/shortlists/{id}", this::save);
    routes.post("/shortlists/{id}/delete", this::delete);
    routes.post("/shortlists/{id}/entries/{entry}", this::describe);
    routes.post("/shortlists/{id}/entries/{entry}/up", ctx -> move(ctx, -1));
    routes.post("/shortlists/{id}/entries/{entry}/down", ctx -> move(ctx, 1));
    routes.post("/shortlists/{id}/entries/{entry}/remove", this::remove);
  }

  private void list(Context ctx, List<FieldProblem> problems) {
    Instant now = house.clock().instant();
    ShortlistsPage page =
        house
            .ledger()
            .read(
                session ->
                    new ShortlistsPage(
                        session.shortlists().all().stream()
                            .map(shortlist -> ShortlistViews.row(session, shortlist, now))
                            .toList(),
                        problems));
    house.show(ctx, "shortlists", "Shortlists", Frame.Room.SHORTLISTS, page);
  }

  private void show(Context ctx, List<FieldProblem> problems) {
    ShortlistPage page =
        house
            .ledger()
            .read(
                session -> {
                  Shortlist shortlist = find(ctx, session);
                  return new ShortlistPage(
                      shortlist.id(),
                      shortlist.title(),
                      shortlist.message(),
                      ShortlistViews.entries(session, shortlist.id()),
                      ShortlistViews.scouting(session, shortlist, house.clock().instant()),
                      sharing.side(session, ShareSubject.shortlist(shortlist.id())),
                      problems,
                      ctx.queryParam("saved") != null);
                });
    house.show(ctx, "shortlist", page.title(), Frame.Room.SHORTLISTS, page);
  }

  private void create(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    String title = fields.required("title", "Title", MOST_TITLE);
    if (!fields.problems().isEmpty()) {
      ctx.status(422);
      list(ctx, fields.problems());
      return;
    }
    long id = house.ledger().write(session -> session.shortlists().create(title, ""));
    ctx.redirect("/shortlists/" + id, HttpStatus.SEE_OTHER);
  }

  private void save(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    String title = fields.required("title", "Title", MOST_TITLE);
    String message = fields.text("message", "Message", MOST_TEXT);
    if (!fields.problems().isEmpty()) {
      ctx.status(422);
      show(ctx, fields.problems());
      return;
    }
    change(
        ctx, (session, list) -> session.shortlists().update(list.id(), title, message), "?saved=1");
  }

  private void delete(Context ctx) {
    house
        .ledger()
        .write(
            session -> {
              long id = find(ctx, session).id();
              session.shortlists().delete(id);
              return id;
            });
    ctx.redirect("/shortlists", HttpStatus.SEE_OTHER);
  }

  private void describe(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    String words = fields.text("words", "Words", MOST_TEXT);
    String cover = fields.raw("cover");
    Long shotId = cover.isEmpty() ? null : number(fields, "cover", "Picture");
    fields.check();
    long entryId = House.id(ctx, "entry");
    change(
        ctx,
        (session, list) -> {
          ShortlistEntry entry = entry(session, list, entryId);
          requireShotOfSpot(session, entry.entry().spotId(), shotId);
          session.shortlists().describe(entryId, words, shotId);
        },
        "?saved=1#entry-" + entryId);
  }

  private void move(Context ctx, int by) {
    long entryId = House.id(ctx, "entry");
    change(
        ctx,
        (session, list) -> {
          entry(session, list, entryId);
          List<Long> order = new ArrayList<>();
          session.shortlists().entries(list.id()).forEach(entry -> order.add(entry.id()));
          int from = order.indexOf(entryId);
          int to = Math.min(Math.max(from + by, 0), order.size() - 1);
          Collections.swap(order, from, to);
          session.shortlists().reorder(list.id(), order);
        },
        "#entry-" + entryId);
  }

  private void remove(Context ctx) {
    long entryId = House.id(ctx, "entry");
    change(
        ctx,
        (session, list) -> {
          entry(session, list, entryId);
          session.shortlists().remove(entryId);
        },
        "#entries");
  }

  /** Puts a spot, with the moment that the answer gave, on a shortlist or on a new one. */
  private void keep(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    Long spotId = number(fields, "spot", "Spot");
    Long listId = fields.raw("list").isEmpty() ? null : number(fields, "list", "Shortlist");
    Long cover = fields.raw("cover").isEmpty() ? null : number(fields, "cover", "Picture");
    Shortlist.Moment moment = fields.raw("from").isEmpty() ? null : moment(fields);
    fields.check();
    if (spotId == null) {
      throw PageProblem.notFound("There is no spot with this number.");
    }
    Kept kept =
        house
            .ledger()
            .write(
                session -> {
                  if (session.spots().find(spotId).isEmpty()) {
                    throw PageProblem.notFound("There is no spot with this number.");
                  }
                  requireShotOfSpot(session, spotId, cover);
                  Shortlist list = listOrNew(session, listId);
                  Shortlist.Entry entry = new Shortlist.Entry(spotId, moment, cover, "");
                  boolean there = list.entries().stream().anyMatch(same -> isSame(same, entry));
                  if (!there) {
                    session.shortlists().add(list.id(), entry);
                  }
                  return new Kept(list.id(), list.title());
                });
    if (Pages.wantsPart(ctx)) {
      house.pages().part(ctx, "kept", kept);
    } else {
      ctx.redirect("/shortlists/" + kept.id() + "#entries", HttpStatus.SEE_OTHER);
    }
  }

  private Shortlist listOrNew(LedgerSession session, @Nullable Long listId) {
    long id =
        listId == null
            ? session
                .shortlists()
                .create("Shortlist of " + Words.shortDay(house.today(session.spots().all())), "")
            : listId;
    return session
        .shortlists()
        .find(id)
        .orElseThrow(() -> PageProblem.notFound("There is no shortlist with this number."));
  }

  private static boolean isSame(Shortlist.Entry one, Shortlist.Entry other) {
    Shortlist.Moment moment = one.moment();
    return one.spotId() == other.spotId()
        && (moment == null ? other.moment() == null : moment.equals(other.moment()));
  }

  private static Shortlist.@Nullable Moment moment(Fields fields) {
    LightClass light = fields.light("light", "Light", fields.raw("light"));
    Double facing = fields.number("facing", "Facing", 0, 360, "°");
    try {
      OffsetDateTime from = OffsetDateTime.parse(fields.raw("from"));
      OffsetDateTime to = OffsetDateTime.parse(fields.raw("to"));
      return light == null || facing == null
          ? null
          : new Shortlist.Moment(from, to, light, Bearing.of(facing));
    } catch (DateTimeException e) {
      fields.problem(
          "from",
          "Hour",
          "expected a time with its offset, found " + Fields.quoted(fields.raw("from")));
      return null;
    }
  }

  private static @Nullable Long number(Fields fields, String field, String label) {
    try {
      return Long.valueOf(fields.raw(field));
    } catch (NumberFormatException e) {
      fields.problem(field, label, "expected a number, found " + Fields.quoted(fields.raw(field)));
      return null;
    }
  }

  private static void requireShotOfSpot(LedgerSession session, long spotId, @Nullable Long shotId) {
    boolean belongs =
        shotId == null
            || session
                .shots()
                .find(shotId)
                .map(shot -> shot.spotId() != null && shot.spotId() == spotId)
                .orElse(false);
    if (!belongs) {
      throw PageProblem.notFound("That picture does not belong to this spot.");
    }
  }

  private static ShortlistEntry entry(LedgerSession session, Shortlist list, long entryId) {
    return session.shortlists().entries(list.id()).stream()
        .filter(entry -> entry.id() == entryId)
        .findFirst()
        .orElseThrow(() -> PageProblem.notFound("That spot is no longer on this shortlist."));
  }

  private interface Change {
    void apply(LedgerSession session, Shortlist list);
  }

  private void change(Context ctx, Change change, String then) {
    long id =
        house
            .ledger()
            .write(
                session -> {
                  Shortlist list = find(ctx, session);
                  change.apply(session, list);
                  return list.id();
                });
    ctx.redirect("/shortlists/" + id + then, HttpStatus.SEE_OTHER);
  }

  static Shortlist find(Context ctx, LedgerSession session) {
    return session
        .shortlists()
        .find(House.id(ctx, "id"))
        .orElseThrow(() -> PageProblem.notFound("There is no shortlist with this number."));
  }
}
