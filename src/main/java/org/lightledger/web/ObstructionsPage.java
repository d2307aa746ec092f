package org.lightledger.web;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the owner drew by hand, and the shadows on the ground.
 *
 * @param rows what was drawn
 * @param form what the form holds
 * @param changing the number of the one that is being changed, or null when a new one is drawn
 * @param changingName its name, "" for none
 * @param shadows the shadows, and for when they are asked
 * @param spots the spots for the map
 * @param problems what was wrong with what was sent
 * @param done what has just been done, "" for nothing
 * @param notes what of a file could not be used, a line each
 */
public record ObstructionsPage(
    List<Row> rows,
    Form form,
    @Nullable Long changing,
    String changingName,
    Shadows shadows,
    List<Place> spots,
    List<FieldProblem> problems,
    String done,
    List<String> notes) {

  /**
   * Something that was drawn.
   *
   * @param id the ledger's number
   * @param name what the owner calls it
   * @param words what it is and how high
   * @param outline its outline as GeoJSON, for the map
   * @param current whether it is the one that is being changed
   */
  public record Row(long id, String name, String words, String outline, boolean current) {}

  /**
   * What the form holds, as it was typed.
   *
   * @param name what the owner calls it
   * @param kind the code of its kind
   * @param shape "outline", "line" or "crown"
   * @param corners latitude and longitude, a line each
   * @param height metres, "" when not known
   * @param width metres of a line or a crown
   */
  public record Form(
      String name, String kind, String shape, String corners, String height, String width) {}

  /**
   * The shadows on the ground.
   *
   * @param spot the spot that the page is about, "" for none
   * @param day the day
   * @param at the hour there
   * @param zone whose clocks tell it
   * @param asked whether shadows were asked for
   * @param words where the sun stands and which spots lie in the shadow, "" when nothing was asked
   */
  public record Shadows(
      String spot, String day, String at, String zone, boolean asked, String words) {}

  /**
   * A spot on the map.
   *
   * @param name its name
   * @param lat latitude, degrees
   * @param lon longitude
   * @param about whether the page is about it
   */
  public record Place(String name, String lat, String lon, boolean about) {}
}
