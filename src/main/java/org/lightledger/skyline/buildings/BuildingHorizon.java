package org.lightledger.skyline.buildings;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineFlag;

/**
 * What buildings and trees hide around a place. At each azimuth of a skyline the altitude of the
 * highest obstruction is exact; the highest point within half a step on both sides goes into the
 * uncertainty. Immutable; safe for use by several threads.
 */
public final class BuildingHorizon {
  private final double[] tangents;
  private final double[] distancesM;
  private final double[] highestTangents;
  private final @Nullable Obstruction[] standing;
  private final List<Obstruction> inside;

  /** Takes the arrays over. */
  BuildingHorizon(
      double[] tangents,
      double[] distancesM,
      double[] highestTangents,
      @Nullable Obstruction[] standing,
      List<Obstruction> inside) {
    this.tangents = tangents;
    this.distancesM = distancesM;
    this.highestTangents = highestTangents;
    this.standing = standing;
    this.inside = List.copyOf(inside);
  }

  /**
   * The obstruction that stands highest at an azimuth.
   *
   * @param step of the skyline, from 0 to 719
   * @return it, or nothing where the way is free
   */
  public Optional<Obstruction> obstruction(int step) {
    return Optional.ofNullable(standing[step]);
  }

  /**
   * Its altitude.
   *
   * @param step of the skyline, from 0 to 719
   * @return apparent altitude, degrees in [-90, 90]; -90 where the way is free
   */
  public double altitudeDeg(int step) {
    return Math.toDegrees(Math.atan(tangents[step]));
  }

  /**
   * The altitude of the highest point within half a step on both sides.
   *
   * @param step of the skyline, from 0 to 719
   * @return apparent altitude, degrees in [-90, 90]; -90 where the way is free
   */
  public double highestInStepDeg(int step) {
    return Math.toDegrees(Math.atan(highestTangents[step]));
  }

  /**
   * How far the nearest point of the highest obstruction at an azimuth is.
   *
   * @param step of the skyline, from 0 to 719
   * @return metres; 0 where the way is free
   */
  public double distanceM(int step) {
    return distancesM[step];
  }

  /**
   * The obstructions that the place lies inside of. They are left out of the horizon: a subject
   * stands outdoors, so either the place or the outline is a little off, or one stands beneath, as
   * in an archway or a wood, where the altitude of a skyline can not tell the light.
   *
   * @return them, in order of their names
   */
  public List<Obstruction> inside() {
    return inside;
  }

  /**
   * Puts the obstructions onto the land. The higher of both counts at each azimuth; what limits the
   * land limits the result. What stands higher within half a step than at the azimuth itself is
   * added to the uncertainty. Where the place lies inside of an obstruction, no value is more than
   * a lower bound, for something may stand over it.
   *
   * @param land the skyline without obstructions, or {@link Skyline#notKnown}
   * @return both in one
   */
  public Skyline onto(Skyline land) {
    SkylineBuilder builder = new SkylineBuilder(land);
    for (int step = 0; step < Skyline.STEPS; step++) {
      Obstruction highest = standing[step];
      boolean stands = highest != null && altitudeDeg(step) > land.altitudeDeg(step);
      double altitude = stands ? altitudeDeg(step) : land.altitudeDeg(step);
      double own =
          stands && highest != null ? heightSigmaDeg(step, highest) : land.uncertaintyDeg(step);
      double beside = Math.max(0.0, highestInStepDeg(step) - altitude);
      EnumSet<SkylineFlag> flags = EnumSet.noneOf(SkylineFlag.class);
      flags.addAll(land.flags(step));
      if (!inside.isEmpty()) {
        flags.add(SkylineFlag.PERHAPS_COVERED);
      }
      builder.set(
          step,
          altitude,
          Math.hypot(own, beside),
          stands && highest != null ? highest.kind().source() : land.source(step),
          flags);
    }
    return builder.build();
  }

  private double heightSigmaDeg(int step, Obstruction obstruction) {
    double sigmaM = obstruction.heightSource().sigmaM(obstruction.heightM());
    double cosine = Math.cos(Math.atan(tangents[step]));
    return Math.toDegrees(Math.atan(sigmaM / distancesM[step] * cosine * cosine));
  }
}
