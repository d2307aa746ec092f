package org.lightledger.shot.view;

import java.util.Optional;
import org.lightledger.geo.Angles;
import org.lightledger.geo.Bearing;
import org.lightledger.sun.SunDirection;

/**
 * A camera held level from left to right, looking somewhere.
 *
 * @param camera the camera
 * @param facing true bearing of the optical axis
 * @param pitchDeg how far the optical axis points above the horizon, degrees in (-90, 90)
 */
public record CameraView(PinholeCamera camera, Bearing facing, double pitchDeg) {

  /**
   * Checks the view.
   *
   * @throws IllegalArgumentException when the pitch lies outside (-90, 90) or is not a number
   */
  public CameraView {
    if (!(pitchDeg > -90 && pitchDeg < 90)) {
      throw new IllegalArgumentException(
          "expected a pitch in (-90, 90) degrees, found " + pitchDeg);
    }
  }

  /**
   * Where in the picture a direction is seen.
   *
   * @param azimuth true bearing of the direction
   * @param apparentAltitudeDeg its altitude as seen, degrees in [-90, 90]
   * @return the place, also outside the picture; nothing when it lies beside or behind the camera
   */
  public Optional<Pixel> pixelOf(Bearing azimuth, double apparentAltitudeDeg) {
    double altitude = Math.toRadians(apparentAltitudeDeg);
    double turn = Math.toRadians(facing.turnToDeg(azimuth));
    double pitch = Math.toRadians(pitchDeg);
    double right = Math.cos(altitude) * Math.sin(turn);
    double level = Math.cos(altitude) * Math.cos(turn);
    double rise = Math.sin(altitude);
    double depth = level * Math.cos(pitch) + rise * Math.sin(pitch);
    double up = rise * Math.cos(pitch) - level * Math.sin(pitch);
    return depth > 0
        ? Optional.of(camera.pixel(new Ray(right / depth, up / depth)))
        : Optional.empty();
  }

  /**
   * The azimuth that is seen at a place in the picture.
   *
   * @param pixel the place
   * @return true bearing
   */
  public Bearing azimuthAt(Pixel pixel) {
    Ray ray = camera.ray(pixel);
    return Bearing.of(
        facing.trueDeg()
            + Math.toDegrees(Math.atan2(ray.right(), ray.forward(Math.toRadians(pitchDeg)))));
  }

  /**
   * The altitude that is seen at a place in the picture.
   *
   * @param pixel the place
   * @return apparent altitude, degrees in [-90, 90]
   */
  public double altitudeDegAt(Pixel pixel) {
    Ray ray = camera.ray(pixel);
    double pitch = Math.toRadians(pitchDeg);
    return Math.toDegrees(Math.atan2(ray.rise(pitch), Math.hypot(ray.right(), ray.forward(pitch))));
  }

  /**
   * Whether the centre of the sun's disc is in the picture.
   *
   * @param sun where the sun stands
   * @return true when it is, whatever may stand before it
   */
  public boolean sunInFrame(SunDirection sun) {
    return pixelOf(sun.azimuth(), sun.apparentAltitudeDeg()).filter(camera::contains).isPresent();
  }

  /**
   * The bearing of what is seen at the left edge, half-way up: one side of the wedge on a map.
   *
   * @return true bearing
   */
  public Bearing leftEdge() {
    return azimuthAt(new Pixel(0, camera.heightPx() / 2.0));
  }

  /**
   * The bearing of what is seen at the right edge, half-way up: the other side of the wedge.
   *
   * @return true bearing
   */
  public Bearing rightEdge() {
    return azimuthAt(new Pixel(camera.widthPx(), camera.heightPx() / 2.0));
  }

  /**
   * The width of the wedge on a map, from the left edge clockwise to the right.
   *
   * @return degrees in [0, 360)
   */
  public double wedgeDeg() {
    return Angles.normalizeDeg(rightEdge().trueDeg() - leftEdge().trueDeg());
  }
}
