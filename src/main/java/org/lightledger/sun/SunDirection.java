package org.lightledger.sun;

import org.lightledger.geo.Angles;
import org.lightledger.geo.Bearing;

/**
 * Where the centre of the sun's disc stands on the sky of a place.
 *
 * @param azimuth true bearing of the sun
 * @param geometricAltitudeDeg altitude without refraction, degrees in [-90, 90]
 * @param apparentAltitudeDeg altitude as seen, with refraction, degrees in [-90, 90]
 */
public record SunDirection(
    Bearing azimuth, double geometricAltitudeDeg, double apparentAltitudeDeg) {

  /**
   * Checks the altitudes.
   *
   * @throws IllegalArgumentException when one lies outside [-90, 90] or is not a number
   */
  public SunDirection {
    requireAltitude(geometricAltitudeDeg);
    requireAltitude(apparentAltitudeDeg);
  }

  /**
   * The sun gap: the angle on the sky between two sun directions, that is how alike two moments
   * are. Measured between the apparent directions.
   *
   * @param other the other direction
   * @return degrees in [0, 180]
   */
  public double gapDeg(SunDirection other) {
    return Angles.gapDeg(
        azimuth.trueDeg(), apparentAltitudeDeg, other.azimuth.trueDeg(), other.apparentAltitudeDeg);
  }

  private static void requireAltitude(double altitudeDeg) {
    if (!(altitudeDeg >= -90.0 && altitudeDeg <= 90.0)) {
      throw new IllegalArgumentException(
          "expected an altitude in [-90, 90] degrees, found " + altitudeDeg);
    }
  }
}
