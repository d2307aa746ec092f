package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import org.lightledger.share.Redaction;
import org.lightledger.share.Share;
import org.lightledger.share.ShareTokens;
import org.lightledger.share.SharedShortlist;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;

/**
 * The clients' routes. Whatever they answer was made from a {@link SharedShortlist}, or is one of
 * its pictures; nothing else of the ledger can be reached through them.
 */
final class ShareRoutes {
  private static final String PREFIX = "/s/";
  private static final int PICTURE_WIDTH = 1600;

  /** The shortlist's page tells the minute. */
  private static final Duration SEEN_EVERY = Duration.ofMinutes(1);

  private final Map<Long, Instant> seen = new ConcurrentHashMap<>();
  private final Ledger ledger;
  private final Previews previews;
  private final SharePage sharePage;
  private final Clock clock;
  private final Limits limits;

  ShareRoutes(Ledger ledger, Previews previews, SharePage sharePage, Clock clock, Limits limits) {
    this.ledger = ledger;
    this.previews = previews;
    this.sharePage = sharePage;
    this.clock = clock;
    this.limits = limits;
  }

  static boolean isClients(String path) {
    return path.startsWith(PREFIX);
  }

  void register(RoutesConfig routes) {
    routes.get("/s/{token}", this::page);
    routes.head("/s/{token}", this::page);
    routes.get("/s/{token}/picture/{number}", this::picture);
    routes.head("/s/{token}/picture/{number}", this::picture);
  }

  private record Opened(Share share, @Nullable SharedShortlist view) {}

  private void page(Context ctx) {
    headers(ctx);
    Opened opened = open(ctx).orElse(null);
    if (opened == null) {
      over(ctx, 404, "This link leads nowhere", "Check that you have the whole link.");
      return;
    }
    if (opened.view() == null) {
      over(
          ctx,
          410,
          "This link is no longer open",
          "Ask the photographer who sent it to you for a new one.");
      return;
    }
    noteSeen(opened.share());
    String pictures = PREFIX + opened.share().token() + "/picture/";
    ctx.html(sharePage.linked(opened.view(), pictures, SharePage.Mode.LINK));
  }

  /**
   * Notes that a client opened a share, at most once in a minute: a client would else wait for the
   * writer, which an import keeps busy.
   */
  private void noteSeen(Share share) {
    Instant now = clock.instant();
    Instant last = seen.get(share.id());
    boolean isOurs =
        last == null
            ? seen.putIfAbsent(share.id(), now) == null
            : !now.isBefore(last.plus(SEEN_EVERY)) && seen.replace(share.id(), last, now);
    if (isOurs) {
      ledger.change(session -> session.shares().seen(share.id(), now));
    }
  }

  private void picture(Context ctx) {
    headers(ctx);
    SharedShortlist view = open(ctx).map(Opened::view).orElse(null);
    long number = House.id(ctx, "number");
    List<SharedShortlist.SharedSpot> spots = view == null ? List.of() : view.spots();
    Long shotId =
        number < 1 || number > spots.size() ? null : spots.get((int) number - 1).pictureShotId();
    if (shotId == null) {
      throw PageProblem.notFound("There is no such picture.");
    }
    Previews.send(ctx, previews.jpeg(shotId, PICTURE_WIDTH), "no-store");
  }

  private Optional<Opened> open(Context ctx) {
    limits.beforeLink(ctx);
    String token = ctx.pathParam("token");
    Optional<Opened> opened =
        ShareTokens.hasForm(token)
            ? ledger.read(
                session -> session.shares().find(token).map(share -> view(session, share)))
            : Optional.empty();
    if (opened.isEmpty()) {
      limits.wrongLink(ctx);
    }
    return opened;
  }

  private Opened view(LedgerSession session, Share share) {
    if (share.stateAt(clock.instant()) != Share.State.OPEN) {
      return new Opened(share, null);
    }
    return new Opened(
        share,
        session
            .shortlists()
            .find(share.shortlistId())
            .map(list -> Redaction.view(list, session.spots()::find, share.exactPositions()))
            .orElse(null));
  }

  private void over(Context ctx, int status, String title, String words) {
    ctx.status(status).html(sharePage.over(title, words));
  }

  private void headers(Context ctx) {
    ctx.header("Content-Security-Policy", sharePage.policy());
    ctx.header("Referrer-Policy", "no-referrer");
    ctx.header("X-Robots-Tag", "noindex, nofollow");
    ctx.header("Cache-Control", "no-store");
  }
}
