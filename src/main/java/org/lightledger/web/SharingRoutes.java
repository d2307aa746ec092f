package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.lightledger.share.Redaction;
import org.lightledger.share.ShareTokens;
import org.lightledger.share.SharedShortlist;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.store.LedgerSession;

/** The owner's side of sharing: makes links, takes them back, shows what the client will see. */
final class SharingRoutes {
  static final int PICTURE_WIDTH = 960;
  private static final double LONGEST_DAYS = 730;

  private final House house;
  private final Previews previews;
  private final SharePage sharePage;
  private final Supplier<String> address;
  private final ShareTokens tokens = new ShareTokens();

  SharingRoutes(House house, Previews previews, SharePage sharePage, Supplier<String> address) {
    this.house = house;
    this.previews = previews;
    this.sharePage = sharePage;
    this.address = address;
  }

  void register(RoutesConfig routes) {
    routes.post("/shortlists/{id}/shares", this::create);
    routes.post("/shortlists/{id}/shares/{share}/revoke", this::revoke);
    routes.get("/shortlists/{id}/preview", this::preview);
    routes.get("/shortlists/{id}/file", this::file);
  }

  List<ShortlistPage.Link> links(LedgerSession session, long listId) {
    Instant now = house.clock().instant();
    ZoneId zone = house.zone(session.spots().all());
    return session.shares().ofShortlist(listId).stream()
        .map(share -> ShortlistViews.link(share, address.get(), now, zone))
        .toList();
  }

  private void create(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    Double days = fields.number("days", "Days", 1, LONGEST_DAYS, " days");
    boolean exact = fields.ticked("exact");
    fields.check();
    Instant now = house.clock().instant();
    @Nullable Instant expires = days == null ? null : now.plus(Duration.ofDays(days.longValue()));
    long id =
        house
            .ledger()
            .write(
                session -> {
                  long listId = ShortlistRoutes.find(ctx, session).id();
                  session.shares().create(listId, tokens.next(), exact, now, expires);
                  return listId;
                });
    ctx.redirect("/shortlists/" + id + "#share", HttpStatus.SEE_OTHER);
  }

  private void revoke(Context ctx) {
    long shareId = House.id(ctx, "share");
    long id =
        house
            .ledger()
            .write(
                session -> {
                  long listId = ShortlistRoutes.find(ctx, session).id();
                  boolean belongs =
                      session.shares().ofShortlist(listId).stream()
                          .anyMatch(share -> share.id() == shareId);
                  if (!belongs) {
                    throw PageProblem.notFound("There is no such link for this shortlist.");
                  }
                  session.shares().revoke(shareId, house.clock().instant());
                  return listId;
                });
    ctx.redirect("/shortlists/" + id + "#share", HttpStatus.SEE_OTHER);
  }

  private void preview(Context ctx) {
    SharedShortlist view = view(ctx);
    ctx.header("Content-Security-Policy", sharePage.policy());
    ctx.html(sharePage.html(view, this::picture, SharePage.Mode.PREVIEW));
  }

  private void file(Context ctx) {
    SharedShortlist view = view(ctx);
    String html = sharePage.html(view, this::picture, SharePage.Mode.FILE);
    ctx.header("Content-Disposition", "attachment; filename=\"" + fileName(view.title()) + "\"");
    ctx.contentType("text/html; charset=utf-8").result(html.getBytes(StandardCharsets.UTF_8));
  }

  private SharedShortlist view(Context ctx) {
    boolean exact = "yes".equals(ctx.queryParam("exact"));
    return house
        .ledger()
        .read(
            session -> {
              Shortlist list = ShortlistRoutes.find(ctx, session);
              return Redaction.view(list, session.spots()::find, session.hazards()::of, exact);
            });
  }

  private byte @Nullable [] picture(long shotId) {
    return previews.jpeg(shotId, PICTURE_WIDTH).orElse(null);
  }

  /** A name made of the title's plain letters and digits. */
  static String fileName(String title) {
    String plain =
        title.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-+|-+$", "");
    String cut = plain.substring(0, Math.min(plain.length(), 60));
    return (cut.isEmpty() ? "shortlist" : cut) + ".html";
  }
}
