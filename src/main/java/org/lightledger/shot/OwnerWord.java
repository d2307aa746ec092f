package org.lightledger.shot;

import java.time.ZoneId;
import org.jspecify.annotations.Nullable;

/**
 * What the owner adds to what the files of a batch, or of one shot, say.
 *
 * @param cameraZone the zone that the camera's clock was set to, for shots whose place tells none;
 *     or null
 * @param clockCorrection how the camera's clock is put right
 * @param places where the photographer was, for shots whose files hold no position: track logs or
 *     other shots; or null
 * @param about what the owner says of one shot itself, which outweighs its file
 */
public record OwnerWord(
    @Nullable ZoneId cameraZone,
    ClockCorrection clockCorrection,
    @Nullable PlacesByTime places,
    About about) {

  /** The owner adds nothing. */
  public static final OwnerWord NOTHING = new OwnerWord(null, ClockCorrection.NONE, null);

  /**
   * Words that hold for a whole batch.
   *
   * @param cameraZone the zone that the camera's clock was set to, or null
   * @param clockCorrection how the camera's clock is put right
   * @param places where the photographer was, or null
   */
  public OwnerWord(
      @Nullable ZoneId cameraZone, ClockCorrection clockCorrection, @Nullable PlacesByTime places) {
    this(cameraZone, clockCorrection, places, About.NOTHING);
  }

  /**
   * What the owner says of one shot itself. Each is taken as it stands, whatever the file says.
   *
   * @param time when it was taken, or null
   * @param position where the camera stood, or null
   * @param facing where the camera looked, or null
   */
  public record About(
      CaptureTime.@Nullable Known time,
      Shot.@Nullable Position position,
      Shot.@Nullable Facing facing) {

    /** The owner says nothing of the shot. */
    public static final About NOTHING = new About(null, null, null);
  }
}
