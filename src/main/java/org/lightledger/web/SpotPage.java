package org.lightledger.web;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.lightledger.share.Said;
import org.lightledger.web.chart.Svg;

/**
 * One spot.
 *
 * @param id the ledger's number
 * @param name the owner's name for it
 * @param area its area, "" for none
 * @param position latitude and longitude in words
 * @param lat latitude for the map, degrees
 * @param lon longitude
 * @param wedges bearings and spreads for the map
 * @param zone the zone of the place in words
 * @param open whether any direction works
 * @param notes the owner's notes
 * @param cautions what to mind
 * @param hazards what is dangerous or forbidden there, with the usual advice
 * @param traits what the place is and has, in words, "" for nothing said
 * @param sky the sun over it
 * @param plans what can be planned there
 * @param measured its skyline as measured by hand
 * @param dial the facings as a drawing, with today's words for screen readers
 * @param facings the facings
 * @param shots the shots
 * @param form the fields of the form, as they were sent when something was wrong
 * @param problems what was wrong
 * @param saved whether the form has just been saved
 * @param lists shortlists to put the spot on
 * @param travel its hours and the drives from it
 * @param grouping what can be changed about the spot and its shots
 */
public record SpotPage(
    long id,
    String name,
    String area,
    String position,
    String lat,
    String lon,
    String wedges,
    String zone,
    boolean open,
    String notes,
    String cautions,
    List<FieldPage.Advice> hazards,
    String traits,
    SkyView sky,
    PlansView plans,
    MeasuredView measured,
    Svg dial,
    List<FacingRow> facings,
    List<ShotCard> shots,
    Form form,
    List<FieldProblem> problems,
    boolean saved,
    List<ShortlistChoice> lists,
    GroupingView grouping,
    TravelView travel) {

  /** The fields that the owner can change, and the fingerprint of what a page showed in them. */
  public record Form(
      String name,
      String area,
      String notes,
      String cautions,
      boolean open,
      List<AskPage.Choice> traits,
      List<AskPage.Choice> hazards,
      String shown) {

    /** The same fields over what a page showed, see {@link Said#fingerprint}. */
    Form over(String other) {
      return new Form(name, area, notes, cautions, open, traits, hazards, other);
    }

    /** Tells these fields from others, without saying them. */
    String fingerprint() {
      return Said.fingerprint(
          Stream.concat(
                  Stream.of(name, area, notes, cautions, String.valueOf(open)),
                  Stream.concat(traits.stream(), hazards.stream())
                      .filter(AskPage.Choice::picked)
                      .map(AskPage.Choice::code))
              .map(Said::fingerprint)
              .collect(Collectors.joining(" ")));
    }
  }

  /**
   * A facing.
   *
   * @param look bearing in words
   * @param spread how far to either side, in words
   * @param origin where it comes from, in words
   * @param own the number to remove it by, or null when it was learned from shots
   * @param bearingDeg where it looks, so that no other one is removed in its place
   */
  public record FacingRow(
      String look, String spread, String origin, @Nullable String own, String bearingDeg) {}

  /**
   * A shot.
   *
   * @param id the ledger's number
   * @param when when it was taken, in words
   * @param how how that is known
   * @param look where the camera looked, "" when not known
   * @param sun where the sun stood, "" when not known
   * @param light the light, or null when not known
   * @param ev the exposure value, "" when not known
   * @param lat latitude for the map, "" when not known
   * @param lon longitude
   * @param tap whether the sun was on the subject
   * @param problems what the owner should know
   */
  public record ShotCard(
      long id,
      String when,
      String how,
      String look,
      String sun,
      @Nullable Light light,
      String ev,
      String lat,
      String lon,
      SunTap tap,
      List<String> problems) {}

  /** A light with its sign. */
  public record Light(Svg glyph, String word, String side) {}
}
