package org.lightledger.web;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.web.chart.Svg;

/**
 * The day's plan on a phone.
 *
 * @param assets the addresses of style sheets and scripts
 * @param title the session and its day, or what there is in its place
 * @param cancelled whether the session will not be
 * @param query what names the session in addresses, "" for none
 * @param sessionId the session's number as text, "" for none
 * @param zone the zone of the place
 * @param madeAtMs when the page was made, milliseconds of the Unix clock
 * @param made the same in words
 * @param plan the kept plan, or null
 * @param pack what to pack, or null when there is no session
 * @param ground the small map, or null when there is nothing to show on it
 * @param sessions the sessions to choose from
 * @param spots the spots to choose from when the phone does not say where it is
 * @param keep what a phone has to keep besides this page, addresses parted by blanks
 * @param sunCare the warning of the sun
 * @param rulesFirst what every advice ends with
 */
public record FieldPage(
    Assets assets,
    String title,
    boolean cancelled,
    String query,
    String sessionId,
    String zone,
    String madeAtMs,
    String made,
    @Nullable Plan plan,
    @Nullable PackPart pack,
    @Nullable Ground ground,
    List<AskPage.Choice> sessions,
    List<AskPage.Choice> spots,
    String keep,
    String sunCare,
    String rulesFirst) {

  /**
   * The plan.
   *
   * @param call when all meet
   * @param meeting where
   * @param meetingHref the place for the phone's own map, or null when it is not known
   * @param end when it ends
   * @param sky for which sky it was made
   * @param stops in order
   */
  public record Plan(
      String call,
      String meeting,
      @Nullable String meetingHref,
      String end,
      String sky,
      List<Stop> stops) {}

  /**
   * A stop.
   *
   * @param number its place in the order
   * @param name the spot's name
   * @param href the place for the phone's own map
   * @param drive the drive to it, "" for none
   * @param arrive when the car stops
   * @param shoot when pictures are taken
   * @param leave when the car starts
   * @param outfit which outfit is worn, and each change
   * @param look where the camera looks, "" when not known
   * @param lights the light while pictures are taken
   * @param sun where the sun stands at the first and the last picture
   * @param direct when the direct sun ends, or why that is not told
   * @param expected the exposure to be expected half way
   * @param sunCare whether one looks towards a low sun
   * @param hazards what to mind, with the usual advice
   * @param cautions the owner's own cautions, "" for none
   * @param fallback where to go when this place can not be used, "" for none
   */
  public record Stop(
      String number,
      String name,
      String href,
      String drive,
      String arrive,
      String shoot,
      String leave,
      List<String> outfit,
      String look,
      List<Light> lights,
      String sun,
      String direct,
      String expected,
      boolean sunCare,
      List<Advice> hazards,
      String cautions,
      String fallback) {}

  /** A light and its window. */
  public record Light(String window, Svg glyph, String word, String side) {}

  /** A hazard and what is usually done about it. */
  public record Advice(String what, String words) {}

  /**
   * The small map.
   *
   * @param picture the address of the land below, or null when no map of the region is known
   * @param width pixels
   * @param height pixels
   * @param route the way from stop to stop as points of a line
   * @param marks the stops and where all meet
   * @param scaleX where the scale ends, pixels from its start
   * @param scale how long the scale is, in words
   * @param words the same picture in words
   */
  public record Ground(
      @Nullable String picture,
      int width,
      int height,
      String route,
      List<Mark> marks,
      String scaleX,
      String scale,
      String words) {}

  /** A place on the small map; the tip of its facing lies at lookX, lookY, null for none. */
  public record Mark(
      String label, String x, String y, @Nullable String lookX, @Nullable String lookY) {}
}
