package org.lightledger.geo;

/** Arithmetic of angles in degrees. */
public final class Angles {
  private Angles() {}

  /**
   * Brings an azimuth into the full turn.
   *
   * @param angleDeg any finite angle, degrees
   * @return the same direction in [0, 360)
   * @throws IllegalArgumentException when the angle is not finite
   */
  public static double normalizeDeg(double angleDeg) {
    requireFinite(angleDeg);
    double turned = angleDeg % 360.0;
    if (turned < 0) {
      turned += 360.0;
    }
    return turned >= 360.0 ? 0.0 : turned + 0.0;
  }

  /**
   * The turn that leads from one azimuth to another by the shorter way.
   *
   * @param fromDeg start, degrees clockwise from north
   * @param toDeg end, degrees clockwise from north
   * @return the signed turn in (-180, 180], positive clockwise
   * @throws IllegalArgumentException when an angle is not finite
   */
  public static double turnDeg(double fromDeg, double toDeg) {
    double turn = normalizeDeg(toDeg - fromDeg);
    return turn > 180.0 ? turn - 360.0 : turn;
  }

  /**
   * The angle on the sky between two directions, by the haversine formula, which stays exact for
   * small gaps.
   *
   * @param azimuthADeg azimuth of the first direction, degrees
   * @param altitudeADeg altitude of the first direction, degrees in [-90, 90]
   * @param azimuthBDeg azimuth of the second direction, degrees
   * @param altitudeBDeg altitude of the second direction, degrees in [-90, 90]
   * @return the gap, degrees in [0, 180]
   * @throws IllegalArgumentException when an angle is not finite
   */
  public static double gapDeg(
      double azimuthADeg, double altitudeADeg, double azimuthBDeg, double altitudeBDeg) {
    requireFinite(azimuthADeg);
    requireFinite(azimuthBDeg);
    requireFinite(altitudeADeg);
    requireFinite(altitudeBDeg);
    double sinHalfAltitude = Math.sin(Math.toRadians(altitudeBDeg - altitudeADeg) / 2);
    double sinHalfAzimuth = Math.sin(Math.toRadians(azimuthBDeg - azimuthADeg) / 2);
    double haversine =
        sinHalfAltitude * sinHalfAltitude
            + Math.cos(Math.toRadians(altitudeADeg))
                * Math.cos(Math.toRadians(altitudeBDeg))
                * sinHalfAzimuth
                * sinHalfAzimuth;
    return Math.toDegrees(2 * Math.asin(Math.min(1.0, Math.sqrt(haversine))));
  }

  private static void requireFinite(double angleDeg) {
    if (!Double.isFinite(angleDeg)) {
      throw new IllegalArgumentException("expected a finite angle in degrees, found " + angleDeg);
    }
  }
}
