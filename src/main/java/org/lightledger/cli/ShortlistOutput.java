package org.lightledger.cli;

import java.time.Instant;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.share.OpenLinks;
import org.lightledger.share.Share;
import org.lightledger.shortlist.Shortlist;

/** Writes shortlists and shares for machines and for people. */
final class ShortlistOutput {
  private ShortlistOutput() {}

  static Map<String, @Nullable Object> json(Shortlist shortlist) {
    return Json.fields()
        .put("shortlistId", shortlist.id())
        .put("title", shortlist.title())
        .put("message", shortlist.message())
        .put("entries", shortlist.entries().stream().map(ShortlistOutput::entry).toList())
        .map();
  }

  private static Map<String, @Nullable Object> entry(Shortlist.Entry entry) {
    Shortlist.Moment moment = entry.moment();
    return Json.fields()
        .put("spotId", entry.spotId())
        .put("coverShotId", entry.coverShotId())
        .put("words", entry.words())
        .put("light", moment == null ? null : moment.light().code())
        .put("from", moment == null ? null : Json.time(moment.from()))
        .put("to", moment == null ? null : Json.time(moment.to()))
        .put("facingDeg", moment == null ? null : Json.angle(moment.facing().trueDeg()))
        .map();
  }

  static String text(Shortlist shortlist) {
    return String.format(
        Locale.ROOT,
        "%4d  %s (%d spots)%n",
        shortlist.id(),
        shortlist.title(),
        shortlist.entries().size());
  }

  /** A link; its address is null unless it is known how clients reach it. */
  static Map<String, @Nullable Object> json(Share share, String shareAddress) {
    Instant expires = share.terms().expiresAt();
    return Json.fields()
        .put("shareId", share.id())
        .put("shortlistId", share.subject().isSession() ? null : share.subject().id())
        .put("sessionId", share.subject().isSession() ? share.subject().id() : null)
        .put("path", OpenLinks.address(share, ""))
        .put("address", shareAddress.isEmpty() ? null : OpenLinks.address(share, shareAddress))
        .put("exactPositions", share.terms().exactPositions())
        .put("expiresAt", expires == null ? null : expires.toString())
        .map();
  }
}
