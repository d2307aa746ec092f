package org.lightledger.web;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.web.chart.Svg;

/**
 * One shortlist.
 *
 * @param id the ledger's number
 * @param title the owner's title; the client sees it
 * @param message words to the client
 * @param entries the proposed spots, in order
 * @param scouting how its moments are rehearsed in one outing, or null for fewer than two to come
 * @param share what clients see of it and sent back
 * @param problems what was wrong with a form
 * @param saved whether a form has just been saved
 */
public record ShortlistPage(
    long id,
    String title,
    String message,
    List<Entry> entries,
    @Nullable ScoutingLink scouting,
    ShareSide share,
    List<FieldProblem> problems,
    boolean saved) {

  /**
   * A proposed spot.
   *
   * @param id the number of the entry
   * @param number its place in the list
   * @param spot the spot's page
   * @param name the spot's name
   * @param moment when, in words, "" when no hour was chosen
   * @param glyph the light, or null
   * @param light the light's word, "" when no hour was chosen
   * @param look where to face, "" when no hour was chosen
   * @param words what the client reads about it
   * @param cover the picture, or null
   * @param covers the pictures to choose from
   * @param first whether it can not go up
   * @param last whether it can not go down
   */
  public record Entry(
      long id,
      String number,
      String spot,
      String name,
      String moment,
      @Nullable Svg glyph,
      String light,
      String look,
      String words,
      @Nullable String cover,
      List<Cover> covers,
      boolean first,
      boolean last) {}

  /** A picture to choose. */
  public record Cover(String id, String label, String picture, boolean picked) {}
}
