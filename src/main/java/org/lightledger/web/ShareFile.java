package org.lightledger.web;

import java.nio.file.Path;
import java.util.Objects;
import org.lightledger.share.Redaction;
import org.lightledger.share.SharedShortlist;
import org.lightledger.store.Ledger;

/** The file by which a client sees a shortlist without a server. */
public final class ShareFile {
  private ShareFile() {}

  /**
   * Makes the file.
   *
   * @param ledger where the shortlist is
   * @param shortlistId the shortlist's number
   * @param exactPositions whether the client may see where exactly the spots lie
   * @return one HTML document with everything in it
   * @throws IllegalArgumentException when there is no such shortlist
   */
  public static String html(Ledger ledger, long shortlistId, boolean exactPositions) {
    SharedShortlist view =
        ledger.read(
            session ->
                session
                    .shortlists()
                    .find(shortlistId)
                    .map(
                        list ->
                            Redaction.view(
                                list, session.spots()::find, session.hazards()::of, exactPositions))
                    .orElseThrow(
                        () ->
                            new IllegalArgumentException(
                                "expected the number of a shortlist, found "
                                    + shortlistId
                                    + ", which the ledger does not have")));
    Path folder = Objects.requireNonNull(ledger.file().getParent(), "a ledger lies in a folder");
    Previews previews = new Previews(ledger, folder.resolve("previews"));
    return SharePage.standard()
        .html(
            view,
            shotId -> previews.jpeg(shotId, SharingRoutes.PICTURE_WIDTH).orElse(null),
            SharePage.Mode.FILE);
  }
}
