package org.lightledger.shot.view;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.shot.view.SightingErrors.Solution;
import org.lightledger.sun.SunDirection;

/**
 * Tells which way the camera looked from where the sun, or a hard shadow, is in its picture. Time
 * and place of the shot tell where the sun stood; the camera is taken as a pinhole that was level
 * from left to right.
 *
 * <p><b>The sun.</b> Let r be how far right and u how far up the tap lies, in focal lengths, and p
 * the unknown pitch. The ray rises by sin p + u cos p and leads forward by cos p - u sin p. Its
 * altitude h is known: sin p + u cos p = sqrt(1 + r² + u²) sin h, whence p = asin(sqrt(1 + r² + u²)
 * / sqrt(1 + u²) sin h) - atan u. The sun then stands atan2(r, cos p - u sin p) to the right of the
 * facing. No approximation is made.
 *
 * <p><b>A shadow on level ground.</b> The way on the ground from the foot of an upright object to
 * the tip of its shadow leads straight away from the sun. With the pitch known, each tap below the
 * horizon meets the ground at (r, cos p - u sin p) / -(sin p + u cos p) times the camera's height,
 * which is the same for both and falls out of the direction between them. The pitch follows from a
 * tap on the horizon, p = -atan u; without one it is taken as nothing, and the error says so.
 *
 * <p>The error of a facing is how far it moves when the taps, the roll, an assumed pitch and the
 * focal length are off by what {@link TapErrors} and the camera say, each by itself, in quadrature.
 */
public final class FacingFromPicture {
  /**
   * The sun can be seen below the level horizon from a height: from 2000 m the dip is 1.4 degrees,
   * and half of the disc is 0.3; rounded up, own choice.
   */
  private static final double LOWEST_SUN_DEG = -2;

  /**
   * A camera that looks up or down more steeply shows no background that a portrait has; own
   * choice.
   */
  private static final double STEEPEST_PITCH_DEG = 60;

  /** A facing that is worse tells no light; own choice. */
  private static final double GREATEST_ERROR_DEG = 45;

  private FacingFromPicture() {}

  /**
   * By the sun, tapped in the middle of its disc.
   *
   * @param camera the picture's camera
   * @param tap where the sun is
   * @param sun where it stood at the time and place of the shot
   * @param errors how wrong taps and camera can be
   * @return the facing, or why it does not follow
   */
  public static Sighting bySun(
      PinholeCamera camera, Pixel tap, SunDirection sun, TapErrors errors) {
    if (sun.apparentAltitudeDeg() < LOWEST_SUN_DEG) {
      return new Sighting.Refused(
          String.format(
              Locale.ROOT,
              "At the time and place of the shot the sun stood %.1f degrees below the horizon; one"
                  + " of the two is wrong.",
              -sun.apparentAltitudeDeg()));
    }
    return byDirection(camera, tap, sun.azimuth(), sun.apparentAltitudeDeg(), errors);
  }

  /**
   * By the shadow of the camera itself, which lies in the direction opposite to the sun whatever it
   * falls on: usually the shadow of the photographer's head.
   *
   * @param camera the picture's camera
   * @param tap where the camera's shadow is
   * @param sun where the sun stood at the time and place of the shot
   * @param errors how wrong taps and camera can be
   * @return the facing, or why it does not follow
   */
  public static Sighting byOwnShadow(
      PinholeCamera camera, Pixel tap, SunDirection sun, TapErrors errors) {
    if (!(sun.apparentAltitudeDeg() > 0)) {
      return noShadow();
    }
    return byDirection(
        camera, tap, Bearing.of(sun.azimuth().trueDeg() + 180), -sun.apparentAltitudeDeg(), errors);
  }

  /**
   * By the shadow of an upright object on level ground.
   *
   * @param camera the picture's camera
   * @param foot where the object stands on the ground
   * @param tip where the shadow of its top is
   * @param horizon any place on the horizon, as the sea or a plain has one; null when there is
   *     none, and the camera is taken to point at it
   * @param sun where the sun stood at the time and place of the shot
   * @param errors how wrong taps and camera can be
   * @return the facing, or why it does not follow
   */
  public static Sighting byShadow(
      PinholeCamera camera,
      Pixel foot,
      Pixel tip,
      @Nullable Pixel horizon,
      SunDirection sun,
      TapErrors errors) {
    if (!(sun.apparentAltitudeDeg() > 0)) {
      return noShadow();
    }
    if (!camera.contains(foot)
        || !camera.contains(tip)
        || (horizon != null && !camera.contains(horizon))) {
      return outside();
    }
    ShadowTaps taps =
        new ShadowTaps(
            camera.ray(foot), camera.ray(tip), horizon == null ? null : camera.ray(horizon));
    Solution solution = taps.solve(0);
    if (solution == null) {
      return new Sighting.Refused(
          "Foot and tip of a shadow must be two places below the horizon; tap them again, and the"
              + " horizon where it is seen.");
    }
    SightingErrors total = new SightingErrors(solution);
    double tap = errors.tapPx() / camera.focalLengthPx();
    total.add(tap, e -> taps.withFoot(moved(taps.foot(), e, 0)).solve(0));
    total.add(tap, e -> taps.withFoot(moved(taps.foot(), 0, e)).solve(0));
    total.add(tap, e -> taps.withTip(moved(taps.tip(), e, 0)).solve(0));
    total.add(tap, e -> taps.withTip(moved(taps.tip(), 0, e)).solve(0));
    Ray horizonRay = taps.horizon();
    if (horizonRay == null) {
      total.add(errors.pitchDeg(), taps::solve);
    } else {
      total.add(tap, e -> taps.withHorizon(moved(horizonRay, 0, e)).solve(0));
    }
    total.add(errors.rollDeg(), e -> taps.each(ray -> ray.rolled(e)).solve(0));
    total.add(camera.focalLengthPart(), e -> taps.each(ray -> ray.withFocalLength(1 + e)).solve(0));
    return found(sun.azimuth(), solution, total.errorDeg());
  }

  private static Sighting byDirection(
      PinholeCamera camera, Pixel tap, Bearing azimuth, double altitudeDeg, TapErrors errors) {
    if (!camera.contains(tap)) {
      return outside();
    }
    Ray ray = camera.ray(tap);
    Solution solution = solve(ray, altitudeDeg);
    if (solution == null) {
      return new Sighting.Refused(
          String.format(
              Locale.ROOT,
              "No camera that is held level sees something %.1f degrees %s the horizon there; the"
                  + " time, the place or the focal length of the shot is wrong.",
              Math.abs(altitudeDeg),
              altitudeDeg < 0 ? "below" : "above"));
    }
    if (Math.abs(solution.pitchDeg()) > STEEPEST_PITCH_DEG) {
      return new Sighting.Refused(
          String.format(
              Locale.ROOT,
              "The camera would have looked %.0f degrees %s; the time, the place or the focal length"
                  + " of the shot is wrong, or it has no facing.",
              Math.abs(solution.pitchDeg()),
              solution.pitchDeg() < 0 ? "down" : "up"));
    }
    if (seenOverhead(ray, altitudeDeg)) {
      return new Sighting.Refused(
          "Two facings fit a sun so high in the picture; give the bearing by hand.");
    }
    SightingErrors total = new SightingErrors(solution);
    double tapError = errors.tapPx() / camera.focalLengthPx();
    total.add(tapError, e -> solve(moved(ray, e, 0), altitudeDeg));
    total.add(tapError, e -> solve(moved(ray, 0, e), altitudeDeg));
    total.add(errors.rollDeg(), e -> solve(ray.rolled(e), altitudeDeg));
    total.add(camera.focalLengthPart(), e -> solve(ray.withFocalLength(1 + e), altitudeDeg));
    return found(azimuth, solution, total.errorDeg());
  }

  private static Sighting found(Bearing azimuth, Solution solution, double errorDeg) {
    if (!(errorDeg <= GREATEST_ERROR_DEG)) {
      return new Sighting.Refused(
          "From these taps the facing can not be told to "
              + Math.round(GREATEST_ERROR_DEG)
              + " degrees; give the bearing by hand.");
    }
    return new Sighting.Found(
        Bearing.of(azimuth.trueDeg() + solution.turnDeg()), solution.pitchDeg(), errorDeg);
  }

  /** The turn from the known direction to the facing, and the pitch; null when there is none. */
  private static @Nullable Solution solve(Ray ray, double altitudeDeg) {
    double fullPitch = fullPitch(ray, altitudeDeg);
    double pitch = fullPitch - Math.atan(ray.up());
    if (!(Math.abs(pitch) < Math.PI / 2)) {
      return null;
    }
    return new Solution(
        -Math.toDegrees(Math.atan2(ray.right(), ray.forward(pitch))), Math.toDegrees(pitch));
  }

  /** The pitch of the plane of sight, p + atan u, in [-pi/2, pi/2]; NaN when there is none. */
  private static double fullPitch(Ray ray, double altitudeDeg) {
    return Math.asin(
        Math.sin(Math.toRadians(altitudeDeg))
            * Math.hypot(1, Math.hypot(ray.right(), ray.up()))
            / Math.hypot(1, ray.up()));
  }

  /**
   * Whether the other solution of the arc sine, a camera that sees the direction beyond its zenith
   * or nadir, is to be believed as well.
   */
  private static boolean seenOverhead(Ray ray, double altitudeDeg) {
    double fullPitch = fullPitch(ray, altitudeDeg);
    double other = Math.copySign(Math.PI, fullPitch) - fullPitch - Math.atan(ray.up());
    return Math.abs(Math.toDegrees(other)) <= STEEPEST_PITCH_DEG;
  }

  private static Ray moved(Ray ray, double right, double up) {
    return new Ray(ray.right() + right, ray.up() + up);
  }

  private static Sighting outside() {
    return new Sighting.Refused("The tap lies outside the picture; tap again.");
  }

  private static Sighting noShadow() {
    return new Sighting.Refused(
        "At the time and place of the shot the sun had set and gave no shadow; one of the two is"
            + " wrong.");
  }
}
