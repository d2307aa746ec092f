package org.lightledger.shot.track;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a track file tells about where somebody was.
 *
 * @param segments in the order of the file, none of them empty; possibly none at all
 * @param notUsed what else the file held
 */
public record TrackLog(List<TrackSegment> segments, NotUsed notUsed) {
  /** Keeps an own copy of the list. */
  public TrackLog {
    segments = List.copyOf(segments);
  }

  /**
   * How many fixes there are.
   *
   * @return 0 or more
   */
  public int size() {
    return segments.stream().mapToInt(TrackSegment::size).sum();
  }

  /**
   * What of a file was not used, or used with care.
   *
   * @param pointsWithoutTime track points without a time
   * @param pointsWithImpossibleTime track points whose time can not be read, or lies before GPS
   *     time began
   * @param pointsWithoutPlace track points without a possible position or marked as without a fix
   * @param timesTakenAsUtc track points used whose time has no offset from UTC
   * @param pointsOutOfOrder track points used that are earlier than the point before them
   * @param waypointsAndRoutePoints points that are no part of a track
   * @param brokenAtLine the line at which the XML breaks, or null when the file is whole
   */
  public record NotUsed(
      int pointsWithoutTime,
      int pointsWithImpossibleTime,
      int pointsWithoutPlace,
      int timesTakenAsUtc,
      int pointsOutOfOrder,
      int waypointsAndRoutePoints,
      @Nullable Integer brokenAtLine) {

    /** All of the file was used. */
    public static final NotUsed NOTHING = new NotUsed(0, 0, 0, 0, 0, 0, null);

    /**
     * The same for the owner.
     *
     * @return a sentence for each thing worth knowing, possibly none
     */
    public List<String> sentences() {
      List<String> sentences = new ArrayList<>();
      if (brokenAtLine != null) {
        sentences.add(
            "The file is broken at line " + brokenAtLine + "; what stands before is used.");
      }
      add(sentences, pointsWithoutTime, "without a time: not used.");
      add(sentences, pointsWithImpossibleTime, "with an impossible time: not used.");
      add(sentences, pointsWithoutPlace, "without a possible position: not used.");
      add(sentences, timesTakenAsUtc, "whose time has no offset: taken as UTC, as GPX says.");
      add(sentences, pointsOutOfOrder, "earlier than the one before: put in order.");
      add(sentences, waypointsAndRoutePoints, "of waypoints and routes: not used.");
      return sentences;
    }

    private static void add(List<String> sentences, int count, String what) {
      if (count > 0) {
        sentences.add(count + (count == 1 ? " point " : " points ") + what);
      }
    }
  }
}
