package org.lightledger.web;

import java.util.List;
import org.lightledger.web.chart.Svg;

/**
 * The spots that a session may stop at.
 *
 * @param sessionId the session
 * @param rows in the owner's order
 * @param shortlists shortlists to take spots from
 * @param search what was asked of the stock
 */
public record CandidatesView(
    long sessionId, List<Row> rows, List<AskPage.ListChoice> shortlists, Search search) {

  /**
   * A candidate.
   *
   * @param spotId its spot
   * @param number its place in the order
   * @param name the spot's name
   * @param choice "FREE", "LOCKED" or "EXCLUDED"
   * @param choiceLabel the same in words
   * @param choices the states with the chosen one
   * @param lights the light that it has in the session's hours
   * @param none why no light is told, "" when some is
   * @param wanted lights to choose from
   * @param wantedWords the light wanted, in words
   * @param stay minutes, as kept or typed
   * @param arrival a time, as kept or typed
   * @param cautions the spot's cautions and hours
   * @param open whether its form is shown
   * @param first whether it is the first
   * @param last whether it is the last
   */
  public record Row(
      long spotId,
      int number,
      String name,
      String choice,
      String choiceLabel,
      List<AskPage.Choice> choices,
      List<Light> lights,
      String none,
      List<AskPage.Choice> wanted,
      String wantedWords,
      String stay,
      String arrival,
      String cautions,
      boolean open,
      boolean first,
      boolean last) {}

  /**
   * A light in the session's hours.
   *
   * @param glyph its sign
   * @param word its name
   * @param words when, and where the camera looks
   * @param tier what it rests on: "scouted", "modelled" or "geometry"
   */
  public record Light(Svg glyph, String word, String words, String tier) {}

  /**
   * A question to the stock.
   *
   * @param lights lights to choose from
   * @param liked the kinds of place that come first, in words
   * @param found the answers
   * @param said what was found, in words
   * @param open whether it was asked
   */
  public record Search(
      List<AskPage.Choice> lights, String liked, List<Found> found, String said, boolean open) {}

  /**
   * An answer of the stock.
   *
   * @param spotId the spot
   * @param name its name
   * @param light its light
   * @param traits what of the liked it is or has, "" for nothing
   */
  public record Found(long spotId, String name, Light light, String traits) {}
}
