package org.lightledger.spot;

import org.lightledger.geo.Bearing;

/**
 * A true bearing the camera looks along at a spot because the background that way is good.
 *
 * @param bearing middle of the facing
 * @param spreadDeg how far to either side the background stays good, degrees in [0, 180]
 * @param origin where it comes from
 * @param shots how many shots support it, 0 or more
 */
public record Facing(Bearing bearing, double spreadDeg, Origin origin, int shots) {

  /** Where a facing comes from. */
  public enum Origin {
    /** Learned from the directions of the shots. */
    SHOTS,
    /** Set by the owner. */
    OWNER
  }

  /**
   * Checks the facing.
   *
   * @throws IllegalArgumentException when the spread or the count is out of its interval
   */
  public Facing {
    if (!(spreadDeg >= 0 && spreadDeg <= 180)) {
      throw new IllegalArgumentException(
          "expected a spread in [0, 180] degrees, found " + spreadDeg);
    }
    if (shots < 0) {
      throw new IllegalArgumentException("expected a count of shots of 0 or more, found " + shots);
    }
  }
}
