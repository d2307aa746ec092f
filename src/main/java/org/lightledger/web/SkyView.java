package org.lightledger.web;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.web.chart.Svg;

/**
 * The sky over one spot: the sun's paths behind its skyline, the direct sun of a day, the light of
 * a year.
 *
 * @param id the spot's number
 * @param href the address of this part with all that is chosen in it
 * @param date the day of the bold curve in words
 * @param fields what the forms hold
 * @param problems what was wrong with what was chosen
 * @param wide the sun's paths for a desktop
 * @param narrow the same for a phone
 * @param moment the chosen moment in words, "" for none
 * @param around what is known of the skyline
 * @param day the direct sun of the day
 * @param year the light of the year
 */
public record SkyView(
    long id,
    String href,
    String date,
    Chosen fields,
    List<FieldProblem> problems,
    Svg wide,
    Svg narrow,
    String moment,
    Around around,
    Day day,
    Year year) {

  /**
   * What the forms hold.
   *
   * @param day the day
   * @param at the hour, "" for none
   * @param facing the facing, degrees; "" when none was chosen
   * @param year the year; "" when it is the day's
   */
  public record Chosen(String day, String at, String facing, String year) {}

  /**
   * What is known of the skyline.
   *
   * @param known whether there is a stretch that is known
   * @param lower whether there is a stretch that is a lower bound
   * @param gaps whether there is a stretch without anything known
   * @param state what is known, in words
   * @param settle what would tell more; none when all is known
   * @param waiting whether the skyline is still being worked out
   * @param problem what keeps it from being worked out, or null
   * @param remarks what shots say against the skyline or each other
   * @param rows the skyline by direction; none when nothing is known
   */
  public record Around(
      boolean known,
      boolean lower,
      boolean gaps,
      String state,
      List<Step> settle,
      boolean waiting,
      @Nullable String problem,
      List<String> remarks,
      List<Row> rows) {}

  /** Something to do, and where. */
  public record Step(String words, String href) {}

  /** The highest of the skyline within a part of the circle. */
  public record Row(String direction, String altitude, String source) {}

  /**
   * The direct sun of a day.
   *
   * @param wide the day as a bar for a desktop, or null when the date does not exist
   * @param narrow the same for a phone
   * @param facts what happens, in words
   */
  public record Day(@Nullable Svg wide, @Nullable Svg narrow, List<Fact> facts) {}

  /**
   * What happens on a day.
   *
   * @param term what it is
   * @param kind its code for the mark
   * @param lines in words, one or more
   */
  public record Fact(String term, String kind, List<String> lines) {}

  /**
   * The light of a year along one facing.
   *
   * @param year the year
   * @param look the facing in words
   * @param facings the facings to choose from
   * @param wide the year as a chart for a desktop
   * @param narrow the same for a phone
   * @param legend the lights that occur
   * @param hours the heads of the table's columns
   * @param months the rows of the table
   */
  public record Year(
      String year,
      String look,
      List<Choice> facings,
      Svg wide,
      Svg narrow,
      List<Light> legend,
      List<String> hours,
      List<Month> months) {}

  /** A facing to choose. */
  public record Choice(String value, String words, boolean picked) {}

  /** A light of the legend. */
  public record Light(Svg swatch, String word) {}

  /** The light of a month by hour. */
  public record Month(String name, List<String> lights) {}
}
