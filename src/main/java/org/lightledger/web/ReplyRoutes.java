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
import java.util.function.BiConsumer;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.lightledger.share.Reply;
import org.lightledger.share.Said;
import org.lightledger.share.SharedPage;
import org.lightledger.share.Ticks;
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

  private static final String COMMENT = "comment-";
  private static final String ANSWER = "answer-";

  private final Ledger ledger;
  private final OutfitMaker outfits;
  private final @Nullable WebOrigin declared;
  private final Clock clock;
  private final Function<Context, ShareRoutes.Opened> open;
  private final BiConsumer<Context, Unkept> again;

  ReplyRoutes(
      Ledger ledger,
      OutfitMaker outfits,
      @Nullable WebOrigin declared,
      Clock clock,
      Function<Context, ShareRoutes.Opened> open,
      BiConsumer<Context, Unkept> again) {
    this.ledger = ledger;
    this.outfits = outfits;
    this.declared = declared;
    this.clock = clock;
    this.open = open;
    this.again = again;
  }

  void reply(Context ctx) {
    ShareRoutes.Opened opened = changing(ctx, 0);
    Fields fields = new Fields(ctx::formParams);
    Reply reply = read(fields, opened.view());
    Instant now = clock.instant();
    Set<String> clashes =
        ledger.write(session -> ReplyDesk.take(session, opened.share(), reply, now));
    List<String> gone = gone(ctx.formParamMap().keySet(), fields, opened.view());
    if (clashes.isEmpty() && gone.isEmpty()) {
      done(ctx, opened, ShareRoutes.Done.ANSWERS);
    } else {
      Map<String, String> words = new HashMap<>();
      clashes.forEach(field -> words.put(field, fields.raw(field)));
      Map<String, Set<Trait>> places = new HashMap<>();
      reply.answers().forEach((question, said) -> places.put(question, said.places().sent()));
      places.keySet().removeIf(question -> !clashes.contains(ANSWER + question));
      again.accept(ctx, new Unkept(words, places, gone));
    }
  }

  /**
   * What of a reply was not kept.
   *
   * @param words what was typed into fields whose words became others meanwhile
   * @param places the boxes that were ticked for such questions, by question
   * @param gone what was typed into fields that the page no longer has
   */
  record Unkept(Map<String, String> words, Map<String, Set<Trait>> places, List<String> gone) {
    static final Unkept NOTHING = new Unkept(Map.of(), Map.of(), List.of());
  }

  private static Reply read(Fields fields, SharedPage view) {
    Map<String, Said> comments = new HashMap<>();
    for (SharedPage.SharedSpot spot : view.spots()) {
      String field = COMMENT + spot.key();
      comments.put(spot.key(), fields.said(field, spot.name(), Reply.LONGEST_COMMENT));
    }
    Map<String, Reply.Answered> answers = new HashMap<>();
    for (SharedPage.SharedQuestion question : view.questions()) {
      Said words = fields.said(ANSWER + question.key(), question.words(), Reply.LONGEST_WORDS);
      String places = "places-" + question.key();
      answers.put(
          question.key(),
          new Reply.Answered(
              words, new Ticks<>(traits(fields, Fields.SHOWN + places), traits(fields, places))));
    }
    Said words = fields.said("words", "Anything else", Reply.LONGEST_WORDS);
    if (!fields.problems().isEmpty()) {
      FieldProblem first = fields.problems().get(0);
      throw new PageProblem(
          422,
          "That is longer than can be kept",
          first.label() + ": " + first.message() + ".",
          "Go back, your words are still there, and shorten them.",
          fields.problems());
    }
    Ticks<String> favourites =
        new Ticks<>(
            new HashSet<>(fields.all(Fields.SHOWN + "favourite")),
            new HashSet<>(fields.all("favourite")));
    return new Reply(favourites, comments, words, answers, null, false);
  }

  private static Set<Trait> traits(Fields fields, String field) {
    Set<Trait> traits = EnumSet.noneOf(Trait.class);
    fields.all(field).forEach(code -> traits.add(Trait.parse(code)));
    return traits;
  }

  /** New words on places and questions that the page showed when it was opened, and no longer. */
  private static List<String> gone(Set<String> names, Fields fields, SharedPage view) {
    Set<String> there = new HashSet<>();
    view.spots().forEach(spot -> there.add(COMMENT + spot.key()));
    view.questions().forEach(question -> there.add(ANSWER + question.key()));
    return names.stream()
        .filter(name -> name.startsWith(COMMENT) || name.startsWith(ANSWER))
        .filter(name -> !there.contains(name))
        .map(fields::typed)
        .filter(said -> said.isChanged() && !said.words().isEmpty())
        .map(Said::words)
        .toList();
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
          opened.view().cancelled() ? "This session is cancelled" : "This session is over",
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
