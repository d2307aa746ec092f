package org.lightledger.store;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.lightledger.share.Returned;

/** What clients sent back through shares, and how much they may send in a day. */
public final class ReplyStore {
  private final LedgerSession session;

  ReplyStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * What came back through a share.
   *
   * @param shareId the ledger's number of the share
   * @return picks in the order of spots that are not deleted, words and pictures
   */
  public Returned of(long shareId) {
    List<Returned.Pick> picks =
        session
            .call(
                "SELECT spot_id, favourite, words FROM share_picks WHERE share_id = ?"
                    + " AND spot_id IS NOT NULL ORDER BY spot_id")
            .integer(shareId)
            .list(row -> new Returned.Pick(row.integer(), row.flag(), row.text()));
    String words =
        session
            .call("SELECT reply_words FROM shares WHERE id = ?")
            .integer(shareId)
            .first(Row::text)
            .orElse("");
    List<Returned.Outfit> outfits =
        session
            .call(
                "SELECT id, sent_ms, length(jpeg) FROM outfit_pictures WHERE share_id = ?"
                    + " ORDER BY id")
            .integer(shareId)
            .list(row -> new Returned.Outfit(row.integer(), row.instant(), row.integer()));
    return new Returned(picks, words, outfits);
  }

  /**
   * Keeps what a client says of some spots and of all, in place of what was said of them before.
   * What was said of other spots stays.
   *
   * @param shareId the ledger's number of the share
   * @param picks what is said of spots; one that says nothing takes back what was said of its spot
   * @param words what is said of all of it, "" for nothing
   * @param now the present time
   * @throws LedgerException when there is no such share or spot
   */
  public void keep(long shareId, List<Returned.Pick> picks, String words, Instant now) {
    session.changing(LedgerSession.Content.SHARES);
    session.changing(LedgerSession.Content.SHARE_PICKS);
    ShareStore.requireOne(
        shareId,
        session
            .call("UPDATE shares SET (reply_words, replied_ms) = (?, ?) WHERE id = ?")
            .text(words)
            .millis(now)
            .integer(shareId)
            .run());
    for (Returned.Pick pick : picks) {
      session
          .call("DELETE FROM share_picks WHERE share_id = ? AND spot_id = ?")
          .integer(shareId)
          .integer(pick.spotId())
          .run();
      if (pick.saysSomething()) {
        add(shareId, pick);
      }
    }
  }

  private void add(long shareId, Returned.Pick pick) {
    session
        .call("INSERT INTO share_picks (share_id, spot_id, favourite, words) VALUES (?, ?, ?, ?)")
        .integer(shareId)
        .integer(pick.spotId())
        .flag(pick.favourite())
        .text(pick.words())
        .run();
  }

  /**
   * When the file that was taken in last was saved.
   *
   * @param shareId the ledger's number of the share
   * @return by the clock of whoever saved it; nothing when no file told it
   */
  public Optional<Instant> savedAt(long shareId) {
    return session
        .call("SELECT reply_saved_ms FROM shares WHERE id = ? AND reply_saved_ms IS NOT NULL")
        .integer(shareId)
        .first(Row::instant);
  }

  /**
   * Notes when the file that is taken in was saved.
   *
   * @param shareId the ledger's number of the share
   * @param saved by the clock of whoever saved it
   * @throws LedgerException when there is no such share
   */
  public void noteSaved(long shareId, Instant saved) {
    session.changing(LedgerSession.Content.SHARES);
    ShareStore.requireOne(
        shareId,
        session
            .call("UPDATE shares SET reply_saved_ms = ? WHERE id = ?")
            .millis(saved)
            .integer(shareId)
            .run());
  }

  /**
   * Keeps a picture of an outfit.
   *
   * @param shareId the ledger's number of the share
   * @param jpeg the picture, encoded anew and without metadata
   * @param now the present time
   * @return the ledger's number of it
   * @throws LedgerException when there is no such share, or it is no JPEG
   */
  public long addOutfit(long shareId, byte[] jpeg, Instant now) {
    session.changing(LedgerSession.Content.SHARES);
    session.changing(LedgerSession.Content.OUTFIT_PICTURES);
    ShareStore.requireOne(
        shareId,
        session
            .call("UPDATE shares SET replied_ms = ? WHERE id = ?")
            .millis(now)
            .integer(shareId)
            .run());
    return session
        .call("INSERT INTO outfit_pictures (share_id, sent_ms, jpeg) VALUES (?, ?, ?) RETURNING id")
        .integer(shareId)
        .millis(now)
        .blob(jpeg)
        .number();
  }

  /**
   * A picture of an outfit.
   *
   * @param shareId the ledger's number of the share through which it came
   * @param id the ledger's number of the picture
   * @return a JPEG, or nothing when that share has no such picture
   */
  public Optional<byte[]> outfit(long shareId, long id) {
    return session
        .call("SELECT jpeg FROM outfit_pictures WHERE share_id = ? AND id = ?")
        .integer(shareId)
        .integer(id)
        .first(Row::blob);
  }

  /**
   * Removes a picture of an outfit, if that share has it.
   *
   * @param shareId the ledger's number of the share through which it came
   * @param id the ledger's number of the picture
   * @return whether it had it
   */
  public boolean removeOutfit(long shareId, long id) {
    boolean had =
        session
                .call("DELETE FROM outfit_pictures WHERE share_id = ? AND id = ?")
                .integer(shareId)
                .integer(id)
                .run()
            == 1;
    if (had) {
      session.changing(LedgerSession.Content.OUTFIT_PICTURES);
    }
    return had;
  }

  /**
   * Counts what a client asks for in a day, and says whether it is within bounds.
   *
   * @param shareId the ledger's number of the share
   * @param day the day, in UTC
   * @param changes how many changes more
   * @param pictures how many pictures more
   * @param mostChanges how many changes a day may have
   * @param mostPictures how many pictures a day may have
   * @return true when it was counted; false when it would be too many, and nothing was counted
   */
  public boolean count(
      long shareId, LocalDate day, int changes, int pictures, int mostChanges, int mostPictures) {
    session
        .call(
            "UPDATE shares SET (limit_day, day_changes, day_pictures) = (?1, 0, 0)"
                + " WHERE id = ?2 AND limit_day <> ?1")
        .textOf(day)
        .integer(shareId)
        .run();
    return session
            .call(
                "UPDATE shares SET (day_changes, day_pictures)"
                    + " = (day_changes + ?1, day_pictures + ?2)"
                    + " WHERE id = ?3 AND day_changes + ?1 <= ?4 AND day_pictures + ?2 <= ?5")
            .integer(changes)
            .integer(pictures)
            .integer(shareId)
            .integer(mostChanges)
            .integer(mostPictures)
            .run()
        == 1;
  }
}
