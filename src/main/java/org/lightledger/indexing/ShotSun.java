package org.lightledger.indexing;

import org.jspecify.annotations.Nullable;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.Shot;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/** Links shots to the sun. */
public final class ShotSun {
  private ShotSun() {}

  /**
   * Where the sun stood at a shot.
   *
   * @param sun knows where the sun is
   * @param shot what is known of the shot
   * @return the direction, or null when time or place is not known
   * @throws IllegalArgumentException when the time lies outside the stretch that is served
   */
  public static @Nullable SunDirection of(SunEphemeris sun, Shot shot) {
    return shot.time() instanceof CaptureTime.Known time && shot.position() != null
        ? sun.direction(time.instant(), shot.position().point())
        : null;
  }
}
