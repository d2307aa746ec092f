package org.lightledger.skyline.terrain;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.LineOfSight;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineFlag;
import org.lightledger.skyline.SkylineSource;

/**
 * The horizon that the land makes around a place: along each azimuth of a skyline the steepest line
 * of sight over the bilinear surface, exactly, with the earth's curvature and refraction.
 */
public final class TerrainHorizon {
  /**
   * How much the refraction coefficient strays from its mean by day: own choice, half of the mean.
   */
  private static final double REFRACTION_SIGMA = 0.065;

  /**
   * Heights of one model that lie this close err together, so that near land is better known than
   * single heights say, metres: own choice, no source.
   */
  private static final double ERR_TOGETHER_M = 500.0;

  private final double eyeM;
  private final TerrainOptions options;
  private final double[] altitudeDeg = new double[Skyline.STEPS];
  private final double[] distanceM = new double[Skyline.STEPS];
  private final List<Set<SkylineFlag>> flags = new ArrayList<>(Skyline.STEPS);

  private TerrainHorizon(double eyeM, TerrainOptions options) {
    this.eyeM = eyeM;
    this.options = options;
  }

  /**
   * Looks around.
   *
   * @param surface the land
   * @param place where one stands, between 85 degrees south and north
   * @param options how to look
   * @return the horizon, or nothing when the surface does not know the height of the place
   * @throws IllegalArgumentException when the place is nearer to a pole
   * @throws java.io.UncheckedIOException when an elevation file can no longer be read
   */
  public static Optional<TerrainHorizon> around(
      ElevationSurface surface, GeoPoint place, TerrainOptions options) {
    OptionalDouble ground = surface.groundM(place);
    if (ground.isEmpty()) {
      return Optional.empty();
    }
    TerrainHorizon horizon =
        new TerrainHorizon(ground.getAsDouble() + options.eyeHeightM(), options);
    horizon.look(surface, place);
    return Optional.of(horizon);
  }

  private void look(ElevationSurface surface, GeoPoint place) {
    Lookout lookout = new Lookout(surface, place, eyeM, options);
    for (int step = 0; step < Skyline.STEPS; step++) {
      lookout.look(Skyline.azimuthDeg(step));
      altitudeDeg[step] = lookout.altitudeDeg();
      distanceM[step] = lookout.distanceM();
      flags.add(lookout.limits());
    }
  }

  /**
   * The height of the eye.
   *
   * @return metres above the elevation model's zero
   */
  public double eyeM() {
    return eyeM;
  }

  /**
   * How far the land stands that makes the horizon.
   *
   * @param step of the skyline, from 0 to 719
   * @return metres
   */
  public double distanceM(int step) {
    return distanceM[step];
  }

  /**
   * The horizon's altitude.
   *
   * @param step of the skyline, from 0 to 719
   * @return apparent altitude, degrees in [-90, 90]
   */
  public double altitudeDeg(int step) {
    return altitudeDeg[step];
  }

  /**
   * What limits the horizon.
   *
   * @param step of the skyline, from 0 to 719
   * @return whether the ray left the known elevation or crossed voids
   */
  public Set<SkylineFlag> flags(int step) {
    return Set.copyOf(flags.get(step));
  }

  /**
   * The horizon as a skyline. Its uncertainty adds up the heights of eye and land, which err
   * together when they are near, and the refraction.
   *
   * @return 720 values with source terrain
   */
  public Skyline skyline() {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      builder.set(
          step,
          altitudeDeg[step],
          uncertaintyDeg(altitudeDeg[step], distanceM[step]),
          SkylineSource.TERRAIN,
          flags.get(step));
    }
    return builder.build();
  }

  private double uncertaintyDeg(double altitude, double distance) {
    double apartM =
        Math.sqrt(2.0) * options.heightSigmaM() * -Math.expm1(-distance / ERR_TOGETHER_M);
    double cosine = Math.cos(Math.toRadians(altitude));
    double heightDeg = Math.toDegrees(Math.atan(apartM / distance)) * cosine * cosine;
    return Math.hypot(heightDeg, REFRACTION_SIGMA * LineOfSight.degPerRefraction(distance));
  }
}
