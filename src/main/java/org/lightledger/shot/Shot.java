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
 * @param clockCorrection what was added to the camera clock's reading before the time was
 *     concluded; the evidence keeps the reading as the file has it
 */
public record Shot(
    Evidence evidence,
    CaptureTime time,
    @Nullable Position position,
    @Nullable Facing facing,
    List<Problem> problems,
    ClockCorrection clockCorrection) {

  /** Keeps an own copy of the problems. */
  public Shot {
    problems = List.copyOf(problems);
  }

  /** A shot whose clock was not corrected. */
  public Shot(
      Evidence evidence,
      CaptureTime time,
      @Nullable Position position,
      @Nullable Facing facing,
      List<Problem> problems) {
    this(evidence, time, position, facing, problems, ClockCorrection.NONE);
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
    /** A track log, at the time of the shot. */
    TRACK,
    /** Other shots of the owner, taken within minutes. */
    NEARBY_SHOT,
    /** The owner's word. */
    OWNER
  }

  /**
   * Where the camera stood.
   *
   * @param point the place
   * @param source how it is known
   * @param errorM horizontal error, metres, greater than 0, or null when not stated
   * @param altitudeM height above sea level by the same source, metres, or null when not stated
   */
  public record Position(
      GeoPoint point, PositionSource source, @Nullable Double errorM, @Nullable Double altitudeM) {

    /** A position without a height. */
    public Position(GeoPoint point, PositionSource source, @Nullable Double errorM) {
      this(point, source, errorM, null);
    }
  }

  /** How a facing became known. */
  public enum FacingSource {
    /** The file's direction, written as true. */
    TRUE_DIRECTION_TAG,
    /** The file's magnetic direction, corrected for the declination of date and place. */
    MAGNETIC_DIRECTION_TAG,
    /** The sun, tapped in the picture. */
    SUN_IN_PICTURE,
    /** A hard shadow, tapped in the picture. */
    SHADOW_IN_PICTURE,
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
