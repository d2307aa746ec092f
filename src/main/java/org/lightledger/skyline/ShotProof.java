package org.lightledger.skyline;

import org.lightledger.sun.SunDirection;

/**
 * What a shot proves of the sun on the subject.
 *
 * @param shot which shot, to name it in messages
 * @param sun where the sun stood
 * @param direct true for direct sun on the subject, false for shade while the sky was clear
 */
public record ShotProof(String shot, SunDirection sun, boolean direct) {

  /** The least a skyline can be after a proof of shade: some of the disc is hidden. */
  double atLeastDeg() {
    return sun.apparentAltitudeDeg() - SolarDisc.RADIUS_DEG;
  }

  /** The most a skyline can be after a proof of direct sun: some of the disc shows. */
  double atMostDeg() {
    return sun.apparentAltitudeDeg() + SolarDisc.RADIUS_DEG;
  }
}
