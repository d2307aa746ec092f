package org.lightledger.web;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.web.chart.Svg;

/**
 * The planner of a session.
 *
 * @param session the ledger's number of the session
 * @param title the session's title
 * @param form what was wished
 * @param missing what is missing for a plan, "" for nothing
 * @param best the best plan, or null
 * @param byHand the plan in the owner's order, or null when none was asked for
 * @param overcast the plan for the other sky, or null
 * @param problems what was wrong with the form
 */
public record PlanPage(
    long session,
    String title,
    Form form,
    String missing,
    @Nullable Outcome best,
    @Nullable Outcome byHand,
    @Nullable Overcast overcast,
    List<FieldProblem> problems) {

  /**
   * What was wished.
   *
   * @param skies the skies to choose from
   * @param outfits how many are worn
   * @param outfitLimit how many may be worn
   * @param change minutes that a change takes
   * @param tent whether a changing tent comes along
   * @param meeting how to find the meeting spot
   * @param place where it is, "" for the first stop
   * @param order the spots of the owner's order, "" for none
   */
  public record Form(
      List<AskPage.Choice> skies,
      String outfits,
      int outfitLimit,
      String change,
      boolean tent,
      String meeting,
      String place,
      String order) {}

  /**
   * What came of planning.
   *
   * @param said what it is worth, in words
   * @param refusals why there is no plan; empty when there is one
   * @param call when all meet
   * @param end when it ends
   * @param stops in order
   * @param warnings what to mind
   * @param rejected the candidates that are no stops, with what they lacked
   */
  public record Outcome(
      String said,
      List<Reason> refusals,
      String call,
      String end,
      List<Stop> stops,
      List<String> warnings,
      List<Reason> rejected) {}

  /**
   * Something and what is to be said of it.
   *
   * @param what for example a spot's name
   * @param words one or two sentences
   */
  public record Reason(String what, String words) {}

  /**
   * A stop.
   *
   * @param spotId the spot
   * @param name its name
   * @param drive the drive to it, "" where all meet
   * @param arrive when the car stops
   * @param leave when it starts again
   * @param pictures when the pictures are taken
   * @param outfit which outfit, and where it is changed
   * @param look where the camera looks
   * @param lights the light from beginning to end
   * @param direct when direct light ends, "" when it does not or is not known
   * @param tier what the light rests on
   * @param why why it is a stop
   * @param fallback where to go when this place can not be used, "" for none
   * @param up where the link leads that puts it earlier, "" for the first
   * @param down where the link leads that puts it later, "" for the last
   */
  public record Stop(
      long spotId,
      String name,
      String drive,
      String arrive,
      String leave,
      String pictures,
      String outfit,
      String look,
      List<Light> lights,
      String direct,
      String tier,
      String why,
      String fallback,
      String up,
      String down) {}

  /**
   * A stretch of light.
   *
   * @param glyph its sign
   * @param word its name
   * @param hours from when until when
   */
  public record Light(Svg glyph, String word, String hours) {}

  /**
   * The plan for the other sky.
   *
   * @param sky that sky
   * @param differs what differs
   * @param href where it is shown
   */
  public record Overcast(String sky, List<String> differs, String href) {}
}
