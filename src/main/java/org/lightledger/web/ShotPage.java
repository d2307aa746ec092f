package org.lightledger.web;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One shot: its picture, what its file says, what the ledger concludes, and what can be corrected.
 *
 * @param id the ledger's number
 * @param name the name of its file
 * @param when when it was taken, in words
 * @param waits whether it waits for the owner
 * @param spot its spot's page, or null
 * @param spotName its spot's name, "" for none
 * @param facts what is known, and how
 * @param light the light, or null when not known
 * @param problems what the owner should know
 * @param picture the size of its picture, or null when the file does not tell it
 * @param lat latitude for the map, "" when not known
 * @param lon longitude
 * @param wedge the facing and half of the field of view for the map, "" when not known
 * @param view the field of view in words
 * @param sunAzimuth where the sun stood, degrees, "" when not known
 * @param sunUp whether the sun stood above the horizon
 * @param sunTap whether the sun was on the subject
 * @param spots the spots nearby, for the map
 * @param form the fields of the fixes
 * @param tap the tapped places, and what follows from them
 * @param fixed what the correction just made did, or null
 * @param last the newest correction when it changed this shot, or null
 * @param undone whether a correction has just been undone
 * @param fieldProblems what was wrong with the fields sent
 */
public record ShotPage(
    long id,
    String name,
    String when,
    boolean waits,
    @Nullable String spot,
    String spotName,
    List<Fact> facts,
    SpotPage.@Nullable Light light,
    List<String> problems,
    @Nullable Size picture,
    String lat,
    String lon,
    String wedge,
    String view,
    String sunAzimuth,
    boolean sunUp,
    SunTap sunTap,
    List<AttentionPage.Place> spots,
    FixForm form,
    TapView tap,
    @Nullable FixedView fixed,
    @Nullable LastFix last,
    boolean undone,
    List<FieldProblem> fieldProblems) {

  /**
   * Something that is known of the shot.
   *
   * @param term what it is
   * @param known what the ledger concludes
   * @param how how that is known
   * @param file what the file says
   */
  public record Fact(String term, String known, String how, String file) {}

  /**
   * The size of a picture as it is looked at.
   *
   * @param widthPx pixels
   * @param heightPx pixels
   */
  public record Size(int widthPx, int heightPx) {}
}
