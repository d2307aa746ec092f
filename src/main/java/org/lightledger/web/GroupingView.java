package org.lightledger.web;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What can be changed by hand about a spot and its shots.
 *
 * @param neighbours the spots around, nearest first
 * @param hints what the owner should know of the spot's place
 * @param byOwner whether the owner set its position
 * @param done what has just been changed, or null
 */
public record GroupingView(
    List<Neighbour> neighbours, List<String> hints, boolean byOwner, @Nullable Done done) {

  /** A spot nearby. */
  public record Neighbour(long id, String words) {}

  /**
   * A change, and how to take it back.
   *
   * @param words what was done
   * @param undo what the button says
   * @param action where the button sends
   * @param fields what it sends
   */
  public record Done(String words, String undo, String action, List<Field> fields) {}

  /** A hidden field. */
  public record Field(String name, String value) {}
}
