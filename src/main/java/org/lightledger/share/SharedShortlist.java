package org.lightledger.share;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;

/**
 * All that a client sees of a shortlist. What is not in here does not leave the ledger.
 *
 * @param title the owner's title
 * @param message the owner's words, "" for none
 * @param spots the proposed spots, in order
 */
public record SharedShortlist(String title, String message, List<SharedSpot> spots) {

  /** Keeps an own copy of the spots. */
  public SharedShortlist {
    spots = List.copyOf(spots);
  }

  /**
   * All that a client sees of a spot.
   *
   * @param name the spot's name
   * @param words the owner's words about it, "" for none
   * @param hour the day and the hour in plain words, or null when none was chosen
   * @param light the light in plain words, or null when no hour was chosen
   * @param hazards the usual advice on what is dangerous or forbidden there
   * @param cautions what to mind there, "" for nothing noted
   * @param pictureShotId the shot to show, without its metadata, or null for none
   * @param position the exact place; null unless the owner allowed it
   */
  public record SharedSpot(
      String name,
      String words,
      @Nullable String hour,
      @Nullable String light,
      List<String> hazards,
      String cautions,
      @Nullable Long pictureShotId,
      @Nullable GeoPoint position) {

    /** Keeps an own copy of the advice. */
    public SharedSpot {
      hazards = List.copyOf(hazards);
    }
  }
}
