package org.lightledger.web;

import java.util.List;
import org.lightledger.web.chart.Svg;

/**
 * A kept plan.
 *
 * @param call when all meet
 * @param meeting where all meet
 * @param end when it ends
 * @param made when and for which sky it was made
 * @param stops in order
 */
public record PlanPart(String call, String meeting, String end, String made, List<Stop> stops) {

  /**
   * A stop.
   *
   * @param href the spot's page
   * @param name the spot's name
   * @param drive the drive to it, "" for none
   * @param arrive when the car stops
   * @param pictures when the pictures are taken
   * @param leave when the car starts
   * @param outfit which outfit is worn
   * @param changes the changes of outfit made there
   * @param look where the camera looks, "" when not known
   * @param lights the light from the first picture to the last
   * @param direct when direct sun ends, "" when nothing can be said
   * @param cautions the spot's cautions, "" for none
   * @param fallback where to go when this place can not be used, "" for none
   */
  public record Stop(
      String href,
      String name,
      String drive,
      String arrive,
      String pictures,
      String leave,
      String outfit,
      List<String> changes,
      String look,
      List<Light> lights,
      String direct,
      String cautions,
      String fallback) {}

  /**
   * A stretch of one light.
   *
   * @param hours from when to when
   * @param glyph its sign
   * @param word its name
   * @param sun where the sun stands half way
   */
  public record Light(String hours, Svg glyph, String word, String sun) {}
}
