package org.lightledger.web;

import java.util.ArrayList;
import java.util.Base64;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.share.Said;
import org.lightledger.share.SharedPage;
import org.lightledger.spot.Trait;

/**
 * What a client sees of a share: one page, whose style sheet is part of it. Served by a link it
 * holds no script; as a single file it holds one, which makes the answer. It is shown to the owner
 * beforehand, all from one template.
 */
public final class SharePage {
  /** Parking and permits are the owner's matter. */
  private static final Set<Trait> CHOICES =
      EnumSet.complementOf(EnumSet.of(Trait.PARKING, Trait.NO_PERMIT));

  private final Pages pages;
  private final String css;
  private final String script;

  SharePage(Pages pages, Assets assets) {
    this.pages = pages;
    this.css = assets.text("tokens.css") + assets.text("share.css");
    this.script = assets.text("share.js");
  }

  /**
   * A page that needs nothing but the class path.
   *
   * @return the page
   */
  static SharePage standard() {
    return new SharePage(new Pages(), Assets.load());
  }

  /** Finds a JPEG by the number of its shot; null when there is none. */
  interface Pictures extends Function<Long, byte @Nullable []> {}

  /** The page as a file that needs no server: with its pictures, and the script when it answers. */
  String file(SharedPage shared, Pictures pictures, ShareView.Answering answering) {
    return render(shared, inside(pictures), answering, null, "", ReplyRoutes.Unkept.NOTHING);
  }

  /** The page as the owner sees it beforehand. */
  String look(SharedPage shared, Pictures pictures) {
    return file(shared, pictures, answering(ShareView.Answering.Way.LOOK, ""));
  }

  /** The page with its pictures at addresses below a path. */
  String linked(
      SharedPage shared,
      String path,
      ShareView.Outfits outfits,
      String notice,
      ReplyRoutes.Unkept unkept) {
    ShareView.Answering.Way way =
        shared.open() ? ShareView.Answering.Way.FORM : ShareView.Answering.Way.CLOSED;
    return render(
        shared,
        (index, shotId) -> path + "/picture/" + index,
        answering(way, path + "/reply"),
        outfits,
        notice,
        unkept);
  }

  static ShareView.Answering answering(ShareView.Answering.Way way, String action) {
    return new ShareView.Answering(way, action, "", "", "");
  }

  /** A page that says one thing, such as that a link no longer works. */
  String over(String title, String words, @Nullable String back) {
    return pages.render(
        "shareover",
        Map.of("css", css, "title", title, "words", words, "back", back == null ? "" : back));
  }

  /** The policy of a page of the share: its own style sheet, pictures and forms, nothing else. */
  String policy() {
    return "default-src 'none'; img-src 'self' data:; style-src "
        + Assets.inlineHash(css)
        + "; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";
  }

  /** The policy that a file states itself: its own style sheet and script, nothing else. */
  private String filePolicy(boolean answers) {
    return "default-src 'none'; img-src data:; style-src "
        + Assets.inlineHash(css)
        + (answers ? "; script-src " + Assets.inlineHash(script) : "")
        + "; base-uri 'none'; form-action 'none'";
  }

  private static PictureSource inside(Pictures pictures) {
    return (index, shotId) -> {
      byte[] jpeg = pictures.apply(shotId);
      return jpeg == null
          ? null
          : "data:image/jpeg;base64," + Base64.getEncoder().encodeToString(jpeg);
    };
  }

  private interface PictureSource {
    @Nullable String address(int index, long shotId);
  }

  private String render(
      SharedPage shared,
      PictureSource pictures,
      ShareView.Answering answering,
      ShareView.@Nullable Outfits outfits,
      String notice,
      ReplyRoutes.Unkept unkept) {
    List<ShareView.Spot> spots = new ArrayList<>();
    Set<String> asked = new HashSet<>();
    for (SharedPage.SharedSpot spot : shared.spots()) {
      spots.add(spot(spot, spots.size() + 1, asked.add(spot.key()), pictures, unkept));
    }
    boolean served = answering.form() || outfits != null;
    ShareView view =
        new ShareView(
            css,
            answering.file() ? script : "",
            served ? "" : filePolicy(answering.file()),
            shared.title(),
            shared.message(),
            spots.isEmpty()
                ? ""
                : shared.day().isEmpty()
                    ? Words.count(spots.size(), "place", "places")
                    : Words.count(spots.size(), "stop", "stops"),
            meeting(shared.meeting()),
            spots,
            shared.questions().stream().map(question -> question(question, unkept)).toList(),
            text("words", shared.words(), unkept),
            answering,
            outfits,
            notice,
            unkept.gone(),
            shared.cancelled());
    return pages.render("share", Map.of("page", view));
  }

  private static ShareView.Spot spot(
      SharedPage.SharedSpot spot,
      int index,
      boolean asks,
      PictureSource pictures,
      ReplyRoutes.Unkept unkept) {
    Long shotId = spot.pictureShotId();
    GeoPoint position = spot.position();
    return new ShareView.Spot(
        String.valueOf(index),
        spot.key(),
        asks,
        spot.name(),
        spot.words(),
        spot.hour() == null ? "" : spot.hour(),
        outfits(spot.outfits()),
        spot.light() == null ? "" : spot.light(),
        spot.cautions(),
        shotId == null ? null : pictures.address(index, shotId),
        position == null ? null : place(position),
        spot.favourite(),
        text("comment-" + spot.key(), spot.comment(), unkept));
  }

  /** What a field holds: what is kept, or what was typed and could not be kept. */
  private static ShareView.Text text(String field, String kept, ReplyRoutes.Unkept unkept) {
    String typed = unkept.words().get(field);
    return new ShareView.Text(
        typed == null ? kept : typed, Said.fingerprint(kept), typed == null ? null : kept);
  }

  private static String outfits(List<Integer> outfits) {
    String numbers = outfits.stream().map(String::valueOf).collect(Collectors.joining(", "));
    return outfits.isEmpty() ? "" : (outfits.size() == 1 ? "Outfit " : "Outfits ") + numbers;
  }

  private static ShareView.Question question(
      SharedPage.SharedQuestion question, ReplyRoutes.Unkept unkept) {
    List<TickBox> places = new ArrayList<>();
    Set<Trait> picked = unkept.places().getOrDefault(question.key(), question.places());
    if (question.asksPlaces()) {
      for (Trait trait : CHOICES) {
        places.add(
            new TickBox(
                trait.code(),
                trait.label(),
                picked.contains(trait),
                question.places().contains(trait)));
      }
    }
    return new ShareView.Question(
        question.key(),
        question.words(),
        places,
        text("answer-" + question.key(), question.answer(), unkept));
  }

  private static ShareView.@Nullable Meeting meeting(SharedPage.@Nullable Meeting meeting) {
    return meeting == null
        ? null
        : new ShareView.Meeting(
            meeting.hour(), meeting.words(), place(meeting.place()), meeting.end());
  }

  private static ShareView.Place place(GeoPoint point) {
    return new ShareView.Place(
        SpotViews.position(point),
        String.format(Locale.ROOT, "geo:%.6f,%.6f", point.latitudeDeg(), point.longitudeDeg()));
  }
}
