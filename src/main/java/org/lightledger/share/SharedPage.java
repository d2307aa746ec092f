package org.lightledger.share;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.spot.Trait;

/**
 * All that a client sees of a share. What is not in here does not leave the ledger.
 *
 * @param title the owner's title of a shortlist, or the client's first name and the day
 * @param message the owner's words, "" for none
 * @param day the day of a session in words, "" for a shortlist
 * @param meeting where and when all meet, or null while that is not told
 * @param spots the proposed spots or the planned stops, in order
 * @param questions what the owner asks, with what was answered; none when nothing is asked
 * @param words what the client said of all of it, "" for nothing
 * @param open whether answers may still change; false once a session is done or cancelled
 * @param cancelled whether a session will not be; then nothing of it is told but whose and when
 */
public record SharedPage(
    String title,
    String message,
    String day,
    @Nullable Meeting meeting,
    List<SharedSpot> spots,
    List<SharedQuestion> questions,
    String words,
    boolean open,
    boolean cancelled) {

  /** Keeps own copies. */
  public SharedPage {
    spots = List.copyOf(spots);
    questions = List.copyOf(questions);
  }

  /**
   * Where and when all meet: the one place whose position a client is always told.
   *
   * @param hour when, as 19:05
   * @param words how to find it
   * @param place where it is
   * @param end when the session ends, as 21:40
   */
  public record Meeting(String hour, String words, GeoPoint place, String end) {}

  /**
   * All that a client sees of a spot.
   *
   * @param key what the spot is called in forms
   * @param name the spot's name
   * @param words the owner's words about it, "" for none
   * @param hour the day and the hour in plain words, or null when none was chosen
   * @param outfits which outfits are worn there, in order, each 1 or more; none when not planned
   * @param light the light in plain words, or null when it is not known
   * @param cautions what to mind there, "" for nothing noted
   * @param pictureShotId the shot to show, without its metadata, or null for none
   * @param position the exact place; null unless the owner allowed it
   * @param favourite whether the client marked it
   * @param comment what the client said of it, "" for nothing
   */
  public record SharedSpot(
      String key,
      String name,
      String words,
      @Nullable String hour,
      List<Integer> outfits,
      @Nullable String light,
      String cautions,
      @Nullable Long pictureShotId,
      @Nullable GeoPoint position,
      boolean favourite,
      String comment) {
    /** Keeps an own copy. */
    public SharedSpot {
      outfits = List.copyOf(outfits);
    }
  }

  /**
   * A question with the client's own answer. What the owner typed in is not shown: it may hold
   * words that were not meant for the client.
   *
   * @param key what the question is called in forms
   * @param words the question
   * @param asksPlaces whether kinds of place are chosen
   * @param answer the client's words, "" for none
   * @param places the chosen kinds of place
   */
  public record SharedQuestion(
      String key, String words, boolean asksPlaces, String answer, Set<Trait> places) {
    /** Keeps an own copy. */
    public SharedQuestion {
      places = Set.copyOf(places);
    }
  }
}
