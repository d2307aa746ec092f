package org.lightledger.shortlist;

import java.time.OffsetDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;

/**
 * Spots proposed to a client, in the owner's order.
 *
 * @param id the ledger's number of the shortlist
 * @param title the owner's title; the client sees it
 * @param message words to the client, "" for none; the client sees them
 * @param entries the proposed spots
 */
public record Shortlist(long id, String title, String message, List<Entry> entries) {

  /** Keeps an own copy of the entries. */
  public Shortlist {
    entries = List.copyOf(entries);
  }

  /**
   * One proposed spot, with the answer that made it worth proposing.
   *
   * @param spotId the spot
   * @param moment when, or null when the spot was put on the list without a question
   * @param coverShotId the shot that stands for it, or null for none
   * @param words what the client reads about the spot, "" for nothing
   */
  public record Entry(
      long spotId, @Nullable Moment moment, @Nullable Long coverShotId, String words) {}

  /**
   * The light at a moment, as answered.
   *
   * @param from start of the window, an ISO 8601 local time with offset
   * @param to end of the window
   * @param light the class of the light
   * @param facing where the camera looks
   */
  public record Moment(OffsetDateTime from, OffsetDateTime to, LightClass light, Bearing facing) {}
}
