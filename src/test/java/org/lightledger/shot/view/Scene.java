package org.lightledger.shot.view;

import java.util.Optional;

/**
 * A camera in a landscape, by plain vectors (east, north, up), so that the formulas under test are
 * not their own judges.
 */
record Scene(
    PinholeCamera camera, double facingDeg, double pitchDeg, double rollDeg, double heightM) {

  Scene(PinholeCamera camera, double facingDeg, double pitchDeg) {
    this(camera, facingDeg, pitchDeg, 0, 1.6);
  }

  /** A direction on the sky as a vector. */
  static double[] direction(double azimuthDeg, double altitudeDeg) {
    double azimuth = Math.toRadians(azimuthDeg);
    double altitude = Math.toRadians(altitudeDeg);
    return new double[] {
      Math.sin(azimuth) * Math.cos(altitude),
      Math.cos(azimuth) * Math.cos(altitude),
      Math.sin(altitude)
    };
  }

  /** Where a direction is seen; nothing when it is not in the picture. */
  Optional<Pixel> see(double[] direction) {
    double[] axis = direction(facingDeg, pitchDeg);
    double[] levelRight = direction(facingDeg + 90, 0);
    double[] levelUp = cross(levelRight, axis);
    double cos = Math.cos(Math.toRadians(rollDeg));
    double sin = Math.sin(Math.toRadians(rollDeg));
    double depth = dot(direction, axis);
    if (depth <= 0) {
      return Optional.empty();
    }
    double right = dot(direction, levelRight) / depth;
    double up = dot(direction, levelUp) / depth;
    Pixel pixel =
        new Pixel(
            camera.widthPx() / 2.0 + camera.focalLengthPx() * (right * cos - up * sin),
            camera.heightPx() / 2.0 - camera.focalLengthPx() * (right * sin + up * cos));
    return Optional.of(pixel).filter(camera::contains);
  }

  /** Where a place is seen that lies so far east and north of the camera, above the ground. */
  Optional<Pixel> see(double eastM, double northM, double aboveGroundM) {
    return see(new double[] {eastM, northM, aboveGroundM - heightM});
  }

  private static double dot(double[] a, double[] b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  }

  private static double[] cross(double[] a, double[] b) {
    return new double[] {
      a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]
    };
  }
}
