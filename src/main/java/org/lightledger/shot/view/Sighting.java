package org.lightledger.shot.view;

import org.lightledger.geo.Bearing;

/** Which way the camera looked, told by something tapped in the picture; or why it is not told. */
public sealed interface Sighting {

  /**
   * The facing follows.
   *
   * @param facing true bearing of the optical axis
   * @param pitchDeg how far the optical axis points above the horizon, degrees in (-90, 90)
   * @param errorDeg how far off the facing can be, degrees, 0 or more
   */
  record Found(Bearing facing, double pitchDeg, double errorDeg) implements Sighting {}

  /**
   * The facing does not follow.
   *
   * @param reason one sentence for the owner
   */
  record Refused(String reason) implements Sighting {}
}
