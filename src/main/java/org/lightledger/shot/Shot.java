package org.lightledger.shot;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;

/**
 * A scouting shot: what we conclude from its evidence.
 *
 * @param evidence what the file says
 * @param time when it was taken
 * @param position where the camera stood, or null when not known
 * @param facing where the camera looked, or null when not known
 * @param problems everything the owner should know, the evidence's problems first
 */
public record Shot(
    Evidence evidence,
    CaptureTime time,
    @Nullable Position position,
    @Nullable Facing facing,
    List<Problem> problems) {

  /** Keeps an own copy of the problems. */
  public Shot {
    problems = List.copyOf(problems);
  }

  /**
   * Whether the shot waits for the owner.
   *
   * @return true when time or place is missing or doubtful
   */
  public boolean needsAttention() {
    return problems.stream().anyMatch(problem -> problem.kind().needsAttention());
  }

  /** How a position became known. */
  public enum PositionSource {
    /** The file's GPS position. */
    GPS,
    /** The owner's word. */
    OWNER
  }

  /**
   * Where the camera stood.
   *
   * @param point the place
   * @param source how it is known
   * @param errorM horizontal error, metres, or null when not stated
   */
  public record Position(GeoPoint point, PositionSource source, @Nullable Double errorM) {}

  /** How a facing became known. */
  public enum FacingSource {
    /** The file's direction, written as true. */
    TRUE_DIRECTION_TAG,
    /** The file's magnetic direction, corrected for the declination of date and place. */
    MAGNETIC_DIRECTION_TAG,
    /** The owner's word. */
    OWNER
  }

  /**
   * Where the camera looked.
   *
   * @param bearing true bearing of the optical axis
   * @param source how it is known
   */
  public record Facing(Bearing bearing, FacingSource source) {}
}
