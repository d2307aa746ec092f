package org.lightledger.web;

import java.util.List;

/**
 * What can be planned at a spot, and what of its light has been scouted.
 *
 * @param id the ledger's number of the spot
 * @param when its windows
 * @param rehearse when to scout for a planned moment
 * @param inLine when the sun rises or sets along a line
 * @param scouted its coverage
 * @param problems what was wrong with the fields
 */
public record PlansView(
    long id,
    When when,
    Rehearse rehearse,
    InLine inLine,
    Scouted scouted,
    List<FieldProblem> problems) {

  /**
   * The windows of a light.
   *
   * @param used whether they are asked for
   * @param lights the lights to pick from
   * @param from first day, as the form holds it
   * @param to last day
   * @param facing where the camera looks, "" for every facing of the spot
   * @param rows the windows in order of time
   * @param said what was found, in words, "" when nothing was asked
   */
  public record When(
      boolean used,
      List<AskPage.Choice> lights,
      String from,
      String to,
      String facing,
      List<Window> rows,
      String said) {}

  /** A window. */
  public record Window(String day, String hours, String length, String look) {}

  /**
   * Earlier moments that are most like a planned one.
   *
   * @param used whether they are asked for
   * @param day the planned day, as the form holds it
   * @param at the planned hour
   * @param weekdays when the owner is free
   * @param after from which hour
   * @param before until which hour
   * @param planned the planned moment in words, "" when nothing was asked
   * @param mirror the mirror day in words
   * @param rows the moments, best first
   * @param said what was found, in words
   */
  public record Rehearse(
      boolean used,
      String day,
      String at,
      List<AskPage.Choice> weekdays,
      String after,
      String before,
      String planned,
      String mirror,
      List<Earlier> rows,
      String said) {}

  /** An earlier moment. */
  public record Earlier(
      String when, String gap, String difference, String kind, String reach, String chart) {}

  /**
   * Days on which the sun rises or sets in line.
   *
   * @param used whether they are asked for
   * @param bearing the line, as the form holds it
   * @param from first day
   * @param to last day
   * @param rows the days in order
   * @param said what was found, in words, "" when nothing was asked
   */
  public record InLine(
      boolean used, String bearing, String from, String to, List<Aligned> rows, String said) {}

  /** A day in line. */
  public record Aligned(String when, String event, String beside) {}

  /**
   * What has been scouted.
   *
   * @param summary how much, in words
   * @param gaps what has never been seen, in sentences
   * @param seasons the columns
   * @param rows a row for each time of the day
   */
  public record Scouted(String summary, List<String> gaps, List<String> seasons, List<Row> rows) {}

  /** A time of the day. */
  public record Row(String time, List<Cell> cells) {}

  /**
   * A season and time.
   *
   * @param kind "seen", "never" or "none", for the mark
   * @param words the same in words
   */
  public record Cell(String kind, String words) {}
}
