package org.lightledger.shot.view;

/**
 * A direction seen from a camera, for each unit forward along the optical axis.
 *
 * @param right to the right
 * @param up upwards
 */
record Ray(double right, double up) {
  /** The same direction as a camera sees it that is turned clockwise about its axis by so much. */
  Ray rolled(double rollDeg) {
    double cos = Math.cos(Math.toRadians(rollDeg));
    double sin = Math.sin(Math.toRadians(rollDeg));
    return new Ray(right * cos - up * sin, right * sin + up * cos);
  }

  /** The same place in the picture with a longer or shorter focal length. */
  Ray withFocalLength(double factor) {
    return new Ray(right / factor, up / factor);
  }

  /** How far the direction leads level and away from the camera, when the axis is pitched. */
  double forward(double pitchRad) {
    return Math.cos(pitchRad) - up * Math.sin(pitchRad);
  }

  /** How far the direction leads upwards, when the axis is pitched. */
  double rise(double pitchRad) {
    return Math.sin(pitchRad) + up * Math.cos(pitchRad);
  }
}
