package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.Handler;
import io.javalin.http.HttpResponseException;
import io.javalin.http.HttpStatus;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import org.lightledger.share.Returned;
import org.lightledger.share.Share;
import org.lightledger.share.ShareTokens;
import org.lightledger.share.SharedPage;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The clients' routes. Whatever they answer was made from a {@link SharedPage}, or is one of its
 * pictures, or a picture that the client sent; nothing else of the ledger can be reached through
 * them, and nothing but the answers of the share can be changed.
 */
final class ShareRoutes {
  private static final Logger LOG = LoggerFactory.getLogger(ShareRoutes.class);
  private static final String PREFIX = "/s/";
  private static final int PICTURE_WIDTH = 1600;

  /** The shortlist's page tells the minute. */
  private static final Duration SEEN_EVERY = Duration.ofMinutes(1);

  private final Map<Long, Instant> seen = new ConcurrentHashMap<>();
  private final Ledger ledger;
  private final Previews previews;
  private final SharePage sharePage;
  private final ShareReader reader;
  private final ReplyRoutes replies;
  private final Clock clock;
  private final Limits limits;

  ShareRoutes(
      Ledger ledger,
      Previews previews,
      SharePage sharePage,
      ShareReader reader,
      OutfitMaker outfits,
      @Nullable WebOrigin declared,
      Clock clock,
      Limits limits) {
    this.ledger = ledger;
    this.previews = previews;
    this.sharePage = sharePage;
    this.reader = reader;
    this.clock = clock;
    this.limits = limits;
    this.replies = new ReplyRoutes(ledger, outfits, declared, clock, this::require, this::again);
  }

  static boolean isClients(String path) {
    return path.startsWith(PREFIX);
  }

  void register(RoutesConfig routes) {
    routes.get("/s/{token}", kept(this::page));
    routes.head("/s/{token}", kept(this::page));
    routes.get("/s/{token}/picture/{number}", kept(this::picture));
    routes.head("/s/{token}/picture/{number}", kept(this::picture));
    routes.get("/s/{token}/outfits/{picture}", kept(this::outfit));
    routes.head("/s/{token}/outfits/{picture}", kept(this::outfit));
    routes.post("/s/{token}/reply", kept(replies::reply));
    routes.post("/s/{token}/outfits", kept(replies::addOutfits));
    routes.post("/s/{token}/outfits/{picture}/remove", kept(replies::removeOutfit));
  }

  /** A share that works, with what it shows. */
  record Opened(Share share, SharedPage view, Returned returned) {
    String path() {
      return PREFIX + share.token();
    }
  }

  /** Answers every failure with a page of the share, which shows nothing of the owner's. */
  private Handler kept(Handler handler) {
    return ctx -> {
      headers(ctx);
      try {
        handler.handle(ctx);
      } catch (PageProblem e) {
        over(ctx, e.status(), e.title(), e.getMessage() + " " + e.toDo());
      } catch (IllegalArgumentException e) {
        over(ctx, 422, "That can not be kept", Words.capital(e.getMessage() + "."));
      } catch (HttpResponseException e) {
        ErrorPage page = ErrorPage.of(e.getStatus());
        over(ctx, e.getStatus(), page.title(), page.message());
      } catch (LedgerException e) {
        LOG.error("{} of a share failed", ctx.method(), e);
        over(ctx, 500, "That did not work", "Please try again in a moment.");
      }
    };
  }

  private void over(Context ctx, int status, String title, String words) {
    String token = ctx.pathParam("token");
    boolean back = status != 404 && status != 410 && ShareTokens.hasForm(token);
    ctx.status(status).html(sharePage.over(title, words, back ? PREFIX + token : null));
  }

  private void page(Context ctx) {
    Opened opened = require(ctx);
    Done done = Done.of(ctx.queryParam("done"));
    if (done == null) {
      noteSeen(opened.share());
    }
    ctx.html(
        sharePage.linked(
            opened.view(),
            opened.path(),
            outfits(opened),
            done == null ? "" : done.words(),
            ReplyRoutes.Unkept.NOTHING));
  }

  /** Shows the page anew with what was not kept of a reply. */
  private void again(Context ctx, ReplyRoutes.Unkept unkept) {
    Opened opened = require(ctx);
    ctx.status(HttpStatus.CONFLICT)
        .html(
            sharePage.linked(
                opened.view(),
                opened.path(),
                outfits(opened),
                "Not all of it was kept yet, please read on. Everything else has arrived.",
                unkept));
  }

  /** What was just done, for a word on the page. */
  enum Done {
    ANSWERS("Thank you. Your answers have arrived."),
    PICTURES("Thank you. Your pictures have arrived."),
    REMOVED("The picture is gone.");

    private final String words;

    Done(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }

    String code() {
      return name().toLowerCase(Locale.ROOT);
    }

    static @Nullable Done of(@Nullable String code) {
      for (Done done : values()) {
        if (done.code().equals(code)) {
          return done;
        }
      }
      return null;
    }
  }

  private static ShareView.Outfits outfits(Opened opened) {
    String path = opened.path() + "/outfits";
    List<ShareView.Outfit> sent = new ArrayList<>();
    for (Returned.Outfit outfit : opened.returned().outfits()) {
      String one = path + "/" + outfit.id();
      sent.add(new ShareView.Outfit(String.valueOf(sent.size() + 1), one, one + "/remove"));
    }
    int room = opened.view().open() ? Math.max(0, ReplyRoutes.MOST_OUTFITS - sent.size()) : 0;
    return new ShareView.Outfits(path, sent, room);
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
    long number = House.id(ctx, "number");
    List<SharedPage.SharedSpot> spots = require(ctx).view().spots();
    Long shotId =
        number < 1 || number > spots.size() ? null : spots.get((int) number - 1).pictureShotId();
    if (shotId == null) {
      throw PageProblem.notFound("There is no such picture.");
    }
    Previews.send(ctx, previews.jpeg(shotId, PICTURE_WIDTH), "no-store");
  }

  private void outfit(Context ctx) {
    Opened opened = require(ctx);
    long id = House.id(ctx, "picture");
    Optional<byte[]> jpeg =
        ledger.read(session -> session.replies().outfit(opened.share().id(), id));
    if (jpeg.isEmpty()) {
      throw PageProblem.notFound("There is no such picture.");
    }
    Previews.send(ctx, jpeg, "no-store");
  }

  /** The share of the link, if it works. */
  private Opened require(Context ctx) {
    limits.beforeLink(ctx);
    String token = ctx.pathParam("token");
    Share share =
        ShareTokens.hasForm(token)
            ? ledger.read(session -> session.shares().find(token)).orElse(null)
            : null;
    if (share == null) {
      limits.wrongLink(ctx);
      throw new PageProblem(
          404, "This link leads nowhere", "Check that you have the whole link.", "", List.of());
    }
    Opened opened =
        share.stateAt(clock.instant()) == Share.State.OPEN
            ? ledger
                .read(
                    session ->
                        reader
                            .view(session, share)
                            .map(view -> new Opened(share, view, session.replies().of(share.id()))))
                .orElse(null)
            : null;
    if (opened == null) {
      throw new PageProblem(
          410,
          "This link is no longer open",
          "Ask the photographer who sent it to you for a new one.",
          "",
          List.of());
    }
    return opened;
  }

  private void headers(Context ctx) {
    ctx.header("Content-Security-Policy", sharePage.policy());
    ctx.header("Referrer-Policy", "same-origin");
    ctx.header("X-Robots-Tag", "noindex, nofollow");
    ctx.header("Cache-Control", "no-store");
  }
}
