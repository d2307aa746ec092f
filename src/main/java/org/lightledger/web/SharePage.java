package org.lightledger.web;

import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.share.SharedShortlist;

/**
 * What a client sees of a shortlist: one page, whose style sheet is part of it and which holds no
 * script. It is served, kept as a single file, and shown to the owner beforehand, all from one
 * template.
 */
public final class SharePage {

  /** How the page is used. */
  public enum Mode {
    /** Opened by a link; pictures have addresses. */
    LINK,
    /** A file that needs no server; pictures are part of it. */
    FILE,
    /** Shown to the owner, with a line that says so. */
    PREVIEW
  }

  private final Pages pages;
  private final String css;

  SharePage(Pages pages, Assets assets) {
    this.pages = pages;
    this.css = assets.text("tokens.css") + assets.text("share.css");
  }

  /**
   * A page that needs nothing but the class path.
   *
   * @return the page
   */
  public static SharePage standard() {
    return new SharePage(new Pages(), Assets.load());
  }

  /**
   * The page with its pictures inside.
   *
   * @param shortlist what the client may see
   * @param picture finds a JPEG by the number of its shot; null when there is none
   * @param mode how the page is used
   * @return a whole HTML document
   */
  public String html(
      SharedShortlist shortlist, Function<Long, byte @Nullable []> picture, Mode mode) {
    return render(
        shortlist,
        mode,
        (index, shotId) -> {
          byte[] jpeg = picture.apply(shotId);
          return jpeg == null
              ? null
              : "data:image/jpeg;base64," + Base64.getEncoder().encodeToString(jpeg);
        });
  }

  /** The page with its pictures at addresses below a path. */
  String linked(SharedShortlist shortlist, String pictures, Mode mode) {
    return render(shortlist, mode, (index, shotId) -> pictures + index);
  }

  /** The page that says that a link no longer works. */
  String over(String title, String words) {
    return pages.render("shareover", Map.of("css", css, "title", title, "words", words));
  }

  /** The policy of a page of the share: its own style sheet, its own pictures, nothing else. */
  String policy() {
    return "default-src 'none'; img-src 'self' data:; style-src "
        + Assets.styleHash(css)
        + "; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
  }

  private interface PictureSource {
    @Nullable String address(int index, long shotId);
  }

  private String render(SharedShortlist shortlist, Mode mode, PictureSource pictures) {
    List<ShareView.Spot> spots = new ArrayList<>();
    for (SharedShortlist.SharedSpot spot : shortlist.spots()) {
      Long shotId = spot.pictureShotId();
      int index = spots.size();
      spots.add(
          new ShareView.Spot(
              String.valueOf(index + 1),
              spot.name(),
              spot.words(),
              spot.hour() == null ? "" : spot.hour(),
              spot.light() == null ? "" : spot.light(),
              spot.hazards(),
              spot.cautions(),
              shotId == null ? null : pictures.address(index + 1, shotId),
              place(spot.position())));
    }
    ShareView view =
        new ShareView(
            css,
            shortlist.title(),
            shortlist.message(),
            spots,
            mode == Mode.PREVIEW,
            spots.isEmpty() ? "" : Words.count(spots.size(), "place", "places"));
    return pages.render("share", Map.of("page", view));
  }

  private static ShareView.@Nullable Place place(@Nullable GeoPoint point) {
    if (point == null) {
      return null;
    }
    return new ShareView.Place(
        SpotViews.position(point),
        String.format(Locale.ROOT, "geo:%.6f,%.6f", point.latitudeDeg(), point.longitudeDeg()));
  }
}
