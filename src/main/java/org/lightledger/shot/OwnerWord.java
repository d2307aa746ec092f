package org.lightledger.shot;

import java.time.ZoneId;
import org.jspecify.annotations.Nullable;

/**
 * What the owner adds to what the files of a batch say.
 *
 * @param cameraZone the zone that the camera's clock was set to, for shots whose place tells none;
 *     or null
 * @param clockCorrection how the camera's clock is put right
 * @param places where the photographer was, for shots whose files hold no position: track logs or
 *     other shots; or null
 */
public record OwnerWord(
    @Nullable ZoneId cameraZone, ClockCorrection clockCorrection, @Nullable PlacesByTime places) {

  /** The owner adds nothing. */
  public static final OwnerWord NOTHING = new OwnerWord(null, ClockCorrection.NONE, null);
}
