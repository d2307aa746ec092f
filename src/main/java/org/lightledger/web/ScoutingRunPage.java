package org.lightledger.web;

import java.util.List;

/**
 * Outings on which planned moments are rehearsed.
 *
 * @param form what is asked for
 * @param outings the best ones, best first
 * @param said what was found, in words
 * @param problems what was wrong with the fields
 */
public record ScoutingRunPage(
    Form form, List<Outing> outings, String said, List<FieldProblem> problems) {

  /**
   * What is asked for, as it was typed.
   *
   * @param stops the planned moments that were understood
   * @param bad the words of those that were not
   * @param full whether no further one can be added
   * @param first the first day
   * @param last the last day
   * @param after free from this hour
   * @param before free until this hour
   * @param weekdays on which days of the week
   * @param stay minutes at each spot
   * @param clock whose clock the free hours are on, "" when all are on one
   */
  public record Form(
      List<AskPage.Choice> stops,
      List<String> bad,
      boolean full,
      String first,
      String last,
      String after,
      String before,
      List<AskPage.Choice> weekdays,
      String stay,
      String clock) {}

  /**
   * An outing.
   *
   * @param day its day
   * @param summary how much it rehearses and how alike
   * @param visits in order
   * @param left what can not be rehearsed on it
   */
  public record Outing(String day, String summary, List<Visit> visits, List<Left> left) {}

  /**
   * A visit.
   *
   * @param drive the drive to it, "" for the first
   * @param reason what the drive's minutes rest on
   * @param hours from when to when
   * @param href the spot's page
   * @param name the spot's name
   * @param planned the moment that is rehearsed
   * @param gap the sun gap in its middle
   * @param difference what is different then
   * @param kind whether the sun reaches the spot, for the mark
   * @param reach the same in words
   * @param chart the spot's chart at that moment
   */
  public record Visit(
      String drive,
      String reason,
      String hours,
      String href,
      String name,
      String planned,
      String gap,
      String difference,
      String kind,
      String reach,
      String chart) {}

  /**
   * What an outing leaves out.
   *
   * @param what the spot and its planned moment
   * @param why what keeps it out
   */
  public record Left(String what, String why) {}
}
