package org.lightledger.web;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Objects;
import org.lightledger.session.outgoing.Studio;
import org.lightledger.share.Share;
import org.lightledger.share.SharedPage;
import org.lightledger.store.Ledger;
import org.lightledger.sun.SunEphemeris;

/** The file by which a client sees a share and answers without a server. */
public final class ShareFile {
  private ShareFile() {}

  /**
   * Makes the file.
   *
   * @param ledger where the share is
   * @param sun knows where the sun is
   * @param shareId the share's number
   * @return one HTML document with everything in it
   * @throws IllegalArgumentException when there is no such share
   */
  public static String html(Ledger ledger, SunEphemeris sun, long shareId) {
    Path folder = Objects.requireNonNull(ledger.file().getParent(), "a ledger lies in a folder");
    Previews previews = new Previews(ledger, folder.resolve("previews"));
    return html(ledger, new ShareReader(sun), SharePage.standard(), previews, shareId);
  }

  static String html(
      Ledger ledger, ShareReader reader, SharePage page, Previews previews, long shareId) {
    Share share =
        ledger.read(session -> session.shares().find(shareId)).orElseThrow(() -> missing(shareId));
    SharedPage view =
        ledger.read(session -> reader.view(session, share)).orElseThrow(() -> missing(shareId));
    String mailTo =
        ledger.read(
            session ->
                Objects.requireNonNullElse(
                    Studio.of(session.settings().all()).contact().email(), ""));
    return page.file(
        view,
        shotId -> previews.jpeg(shotId, SharingRoutes.PICTURE_WIDTH).orElse(null),
        new ShareView.Answering(
            view.open() ? ShareView.Answering.Way.FILE : ShareView.Answering.Way.CLOSED,
            "",
            share.keys().keyId(),
            share.keys().secret(),
            mailTo));
  }

  private static IllegalArgumentException missing(long shareId) {
    return new IllegalArgumentException(
        "expected the number of a share, found " + shareId + ", which the ledger does not have");
  }

  /** A name for the file, made of the title's plain letters and digits. */
  static String name(String title) {
    String plain =
        title.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-+|-+$", "");
    String cut = plain.substring(0, Math.min(plain.length(), 60));
    return (cut.isEmpty() ? "shortlist" : cut) + ".html";
  }
}
