package org.lightledger.web;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.UploadedFile;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.lightledger.share.Reply;
import org.lightledger.share.SharedPage;
import org.lightledger.spot.Trait;
import org.lightledger.store.Ledger;

/** What clients send: answers and pictures of outfits. */
final class ReplyRoutes {
  /** How many pictures of outfits a share holds: own choice, a picture for each possible outfit. */
  static final int MOST_OUTFITS = 12;

  /** How many changes a share takes in a day: own choice, far more than a person makes. */
  static final int MOST_CHANGES_A_DAY = 200;

  /** How many pictures a share takes in a day, removed ones too: own choice. */
  static final int MOST_PICTURES_A_DAY = 60;

  /** What goes around the pictures in an upload, bytes. */
  private static final long SURROUNDINGS = 1_000_000;

  /** The largest upload, bytes. */
  static final long MOST_UPLOAD = MOST_OUTFITS * OutfitMaker.MOST_BYTES + SURROUNDINGS;

  private final Ledger ledger;
  private final OutfitMaker outfits;
  private final @Nullable WebOrigin declared;
  private final Clock clock;
  private final Function<Context, ShareRoutes.Opened> open;

  ReplyRoutes(
      Ledger ledger,
      OutfitMaker outfits,
      @Nullable WebOrigin declared,
      Clock clock,
      Function<Context, ShareRoutes.Opened> open) {
    this.ledger = ledger;
    this.outfits = outfits;
    this.declared = declared;
    this.clock = clock;
    this.open = open;
  }

  void reply(Context ctx) {
    ShareRoutes.Opened opened = changing(ctx, 0);
    Reply reply = read(new Fields(ctx::formParams), opened.view());
    Instant now = clock.instant();
    ledger.change(session -> ReplyDesk.take(session, opened.share(), reply, now));
    done(ctx, opened, ShareRoutes.Done.ANSWERS);
  }

  private static Reply read(Fields fields, SharedPage view) {
    Map<String, String> comments = new HashMap<>();
    for (SharedPage.SharedSpot spot : view.spots()) {
      String field = "comment-" + spot.key();
      comments.put(spot.key(), fields.text(field, spot.name(), Reply.LONGEST_COMMENT));
    }
    Map<String, Reply.Answered> answers = new HashMap<>();
    for (SharedPage.SharedQuestion question : view.questions()) {
      String words = fields.text("answer-" + question.key(), question.words(), Reply.LONGEST_WORDS);
      Set<Trait> places = EnumSet.noneOf(Trait.class);
      fields.all("places-" + question.key()).forEach(code -> places.add(Trait.parse(code)));
      answers.put(question.key(), new Reply.Answered(words, places));
    }
    String words = fields.text("words", "Anything else", Reply.LONGEST_WORDS);
    if (!fields.problems().isEmpty()) {
      FieldProblem first = fields.problems().get(0);
      throw new PageProblem(
          422,
          "That is longer than can be kept",
          first.label() + ": " + first.message() + ".",
          "Go back, your words are still there, and shorten them.",
          fields.problems());
    }
    return new Reply(new HashSet<>(fields.all("favourite")), comments, words, answers);
  }

  void addOutfits(Context ctx) {
    if (ctx.contentLength() < 0 || ctx.contentLength() > MOST_UPLOAD) {
      throw tooLarge();
    }
    requireOwnPage(ctx);
    requireAnswering(open.apply(ctx));
    List<UploadedFile> sent = sent(ctx);
    if (sent.isEmpty()) {
      throw new PageProblem(
          422, "No picture came", "Choose one or more pictures first.", "", List.of());
    }
    ShareRoutes.Opened opened = changing(ctx, sent.size());
    int kept = 0;
    for (UploadedFile file : sent) {
      kept += keep(opened, file) ? 1 : 0;
    }
    if (kept < sent.size()) {
      throw new PageProblem(
          422,
          Words.count(kept, "picture has", "pictures have") + " arrived, not all",
          Words.count(sent.size() - kept, "one", "others")
              + " could not be kept. At most "
              + MOST_OUTFITS
              + " pictures, each of at most "
              + OutfitMaker.MOST_BYTES / (1024 * 1024)
              + " MB and "
              + OutfitMaker.MOST_PIXELS / 1_000_000
              + " million pixels, can be sent.",
          "A photo as JPEG always works.",
          List.of());
    }
    done(ctx, opened, ShareRoutes.Done.PICTURES);
  }

  /** The server throws what it likes over an upload that is broken. */
  private static List<UploadedFile> sent(Context ctx) {
    try {
      return ctx.uploadedFiles("pictures").stream().filter(file -> file.size() > 0).toList();
    } catch (Exception e) {
      throw new PageProblem(
          400, "The upload broke off", "No picture was kept.", "Send it again.", List.of());
    }
  }

  private boolean keep(ShareRoutes.Opened opened, UploadedFile file) {
    long shareId = opened.share().id();
    if (room(shareId) == 0) {
      return false;
    }
    Optional<byte[]> jpeg = outfits.make(file);
    Instant now = clock.instant();
    return jpeg.isPresent()
        && ledger.write(
            session -> {
              if (session.replies().of(shareId).outfits().size() >= MOST_OUTFITS) {
                return false;
              }
              session.replies().addOutfit(shareId, jpeg.get(), now);
              return true;
            });
  }

  private int room(long shareId) {
    return ledger.read(
        session -> Math.max(0, MOST_OUTFITS - session.replies().of(shareId).outfits().size()));
  }

  void removeOutfit(Context ctx) {
    ShareRoutes.Opened opened = changing(ctx, 0);
    long id = House.id(ctx, "picture");
    if (!ledger.write(session -> session.replies().removeOutfit(opened.share().id(), id))) {
      throw PageProblem.notFound("There is no such picture.");
    }
    done(ctx, opened, ShareRoutes.Done.REMOVED);
  }

  private static void done(Context ctx, ShareRoutes.Opened opened, ShareRoutes.Done done) {
    ctx.redirect(opened.path() + "?done=" + done.code(), HttpStatus.SEE_OTHER);
  }

  /** The share, if its own page asks, it still takes answers, and the day's bounds are kept. */
  private ShareRoutes.Opened changing(Context ctx, int pictures) {
    requireOwnPage(ctx);
    ShareRoutes.Opened opened = open.apply(ctx);
    requireAnswering(opened);
    LocalDate day = LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC);
    boolean within =
        ledger.write(
            session ->
                session
                    .replies()
                    .count(
                        opened.share().id(),
                        day,
                        1,
                        pictures,
                        MOST_CHANGES_A_DAY,
                        MOST_PICTURES_A_DAY));
    if (!within) {
      throw new PageProblem(
          429,
          "That was a lot for one day",
          "This page takes "
              + MOST_CHANGES_A_DAY
              + " changes and "
              + MOST_PICTURES_A_DAY
              + " pictures a day.",
          "Please go on tomorrow, or write to the photographer.",
          List.of());
    }
    return opened;
  }

  private static void requireAnswering(ShareRoutes.Opened opened) {
    if (!opened.view().open()) {
      throw new PageProblem(
          409,
          "This session is over",
          "Its answers can no longer be changed here.",
          "Write to the photographer instead.",
          List.of());
    }
  }

  /** Refuses what another site's page asks for. */
  private void requireOwnPage(Context ctx) {
    String site = ctx.header("Sec-Fetch-Site");
    boolean elsewhere = site != null && !site.equals("same-origin") && !site.equals("none");
    if (elsewhere || isForeign(ctx.header("Origin"), ctx.header("Host"))) {
      throw new PageProblem(
          403,
          "Refused",
          "Another site's page asked for this change.",
          "Send it from this page itself.",
          List.of());
    }
  }

  /**
   * Behind a server that passes requests on, the page's origin is the address that is given out.
   */
  private boolean isForeign(@Nullable String origin, @Nullable String host) {
    return origin != null
        && !origin.equalsIgnoreCase("http://" + host)
        && !origin.equalsIgnoreCase("https://" + host)
        && (declared == null || !origin.equalsIgnoreCase(declared.text()));
  }

  private static PageProblem tooLarge() {
    return new PageProblem(
        413,
        "Too much at once",
        "At most "
            + MOST_OUTFITS
            + " pictures of "
            + OutfitMaker.MOST_BYTES / (1024 * 1024)
            + " MB each can be sent.",
        "Send fewer or smaller ones.",
        List.of());
  }
}
