package org.lightledger.web;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.web.chart.Svg;

/**
 * The start page: the question and its answers.
 *
 * @param lights the light classes to pick from
 * @param from first day, as the form holds it
 * @param to last day
 * @param byClock whether the hour is given by the clock and not by the sun
 * @param at first clock time
 * @param until last clock time
 * @param minutes minutes from the sun's event
 * @param side "before" or "after"
 * @param event "sunset" or "sunrise"
 * @param near the middle of the circle, "" for the whole stock
 * @param within the circle's radius, kilometres
 * @param more what else is asked for
 * @param spans stretches of days to pick with one tap
 * @param problems what is wrong with the question
 * @param answers the answers, or null when the question has problems
 */
public record AskPage(
    List<LightChoice> lights,
    String from,
    String to,
    boolean byClock,
    String at,
    String until,
    String minutes,
    String side,
    String event,
    String near,
    String within,
    String drive,
    More more,
    List<Span> spans,
    List<FieldProblem> problems,
    @Nullable AnswersView answers) {

  /** A light class in the form. */
  public record LightChoice(String code, String label, Svg glyph, boolean picked) {}

  /** Something to tick. */
  public record Choice(String code, String label, boolean picked) {}

  /**
   * What else is asked for, as the form holds it.
   *
   * @param open whether anything is, or something of it is bad
   * @param sky "clear" or "overcast"
   * @param sun "either", "direct" or "shade"
   * @param weekdays the days of the week, none picked for all
   * @param least how long the light must last, minutes, "" for any time
   * @param traits what the place must be or have
   * @param inside the corners of the shape, "" for none
   */
  public record More(
      boolean open,
      String sky,
      String sun,
      List<Choice> weekdays,
      String least,
      List<Choice> traits,
      String inside) {}

  /** A stretch of days. */
  public record Span(String label, String href, String from, String to, boolean open) {}

  /** A link with its words. */
  public record Link(String label, String href) {}

  /**
   * The answers.
   *
   * @param headline the answer in one sentence
   * @param question the question in words
   * @param terms what else it asks for, in words, "" for nothing
   * @param href the address that asks it again
   * @param cards the matches, best first
   * @param more how many matches are not shown, in words, "" for none
   * @param suggestions spots without a facing
   * @param notKnown spots about which nothing can be said
   * @param nothing what to do when there is no match, or null
   * @param lists shortlists to put spots on
   * @param circle the circle asked for, for the map, "" for none
   * @param emptyStock whether the ledger holds no spot at all
   * @param skylines what is to be known of the skylines behind the answers
   * @param kept the questions that are kept
   */
  public record AnswersView(
      String headline,
      String question,
      String terms,
      String href,
      List<Card> cards,
      String more,
      List<Card> suggestions,
      List<NotKnown> notKnown,
      @Nullable Nothing nothing,
      List<ShortlistChoice> lists,
      String circle,
      boolean emptyStock,
      Skylines skylines,
      KeptQuestions kept) {}

  /**
   * The questions that are kept.
   *
   * @param open whether to show them unfolded
   * @param query the question of this page, as its address writes it
   * @param all the kept ones by name
   */
  public record KeptQuestions(boolean open, String query, List<KeptQuestion> all) {}

  /** A question that is kept. */
  public record KeptQuestion(long id, String name, String href, boolean here) {}

  /**
   * How far the skylines are.
   *
   * @param waiting how many are still being worked out, in words, "" for none
   * @param problem what keeps them from being worked out, or null
   */
  public record Skylines(String waiting, @Nullable String problem) {}

  /**
   * Whether the sun reaches the spot.
   *
   * @param kind the code of the mark
   * @param word the answer
   * @param clearance by how much the sun clears the skyline, "" when that is not known
   * @param chart the moment on the spot's chart
   */
  public record Reach(String kind, String word, String clearance, String chart) {}

  /** A spot about which the question can not be answered. */
  public record NotKnown(String name, String href, String reason) {}

  /** What to do when there is nothing to show. */
  public record Nothing(String title, List<String> advice, List<Link> links) {}

  /** A choice by number. */
  public record ListChoice(String id, String title, boolean picked) {}

  /**
   * One answer.
   *
   * @param number its number in list and map; "" for a suggestion
   * @param place for the map
   * @param name the spot's name
   * @param area its area, "" for none
   * @param href the spot's page
   * @param picture address of its picture, or null
   * @param pictureNote which shot the picture is
   * @param glyph the light as it falls
   * @param light the light's word
   * @param side which side it comes from, "" where that does not matter
   * @param window when
   * @param day the best moment, the other windows of that day, and on how many days
   * @param drive how long the drive there takes, "" when none was asked for
   * @param look where to face
   * @param lookNote why, "" for a known facing
   * @param sun where the sun stands
   * @param reach whether it reaches the spot
   * @param expected the exposure to be expected
   * @param expectedNote the contrast, and what both rest on
   * @param shotContrast where the contrast of the nearest shot is told, "" without a shot
   * @param dial facing and sun as a drawing
   * @param tier what the answer rests on, for the mark
   * @param tierWord the same as a word
   * @param reason the reason sentence
   * @param mind what to mind there in this light, none for nothing
   * @param keep what to send to put the spot on a shortlist
   */
  public record Card(
      String number,
      Place place,
      String name,
      String area,
      String href,
      @Nullable String picture,
      String pictureNote,
      Svg glyph,
      String light,
      String side,
      String window,
      String day,
      String drive,
      String look,
      String lookNote,
      String sun,
      Reach reach,
      String expected,
      String expectedNote,
      String shotContrast,
      Svg dial,
      String tier,
      String tierWord,
      String reason,
      List<String> mind,
      Keep keep) {}

  /** What the map draws for a card: plain numbers, degrees. */
  public record Place(
      String id, String lat, String lon, String facing, String spread, String sun, String up) {}

  /** The hidden fields that put a spot with its moment on a shortlist. */
  public record Keep(
      String spot, String from, String to, String light, String facing, String cover) {}
}
