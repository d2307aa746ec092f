package org.lightledger.skyline;

import java.util.Arrays;
import java.util.Set;

/**
 * Puts a skyline together, step by step. A step that is not set stays not known. Not for use by
 * several threads at once.
 */
public final class SkylineBuilder {
  private final float[] altitudeDeg = new float[Skyline.STEPS];
  private final float[] uncertaintyDeg = new float[Skyline.STEPS];
  private final byte[] sources = new byte[Skyline.STEPS];
  private final byte[] flags = new byte[Skyline.STEPS];

  /** Starts with nothing known. */
  public SkylineBuilder() {
    Arrays.fill(flags, SkylineFlag.NO_TERRAIN.bit());
  }

  /**
   * Starts with another skyline.
   *
   * @param start what to change
   */
  public SkylineBuilder(Skyline start) {
    for (int step = 0; step < Skyline.STEPS; step++) {
      set(
          step,
          start.altitudeDeg(step),
          start.uncertaintyDeg(step),
          start.source(step),
          start.flags(step));
    }
  }

  /**
   * Sets one step.
   *
   * @param step from 0 to 719
   * @param altitudeDeg apparent altitude, degrees in [-90, 90]
   * @param uncertaintyDeg one standard deviation, degrees, 0 or more
   * @param source where the value comes from
   * @param limits what limits it
   * @return this
   * @throws IllegalArgumentException when an angle is out of its interval or not a number
   */
  public SkylineBuilder set(
      int step,
      double altitudeDeg,
      double uncertaintyDeg,
      SkylineSource source,
      Set<SkylineFlag> limits) {
    if (!(step >= 0 && step < Skyline.STEPS)) {
      throw new IllegalArgumentException("expected a step in [0, 719], found " + step);
    }
    requireAngles(altitudeDeg, uncertaintyDeg);
    setRaw(
        step, (float) altitudeDeg, (float) uncertaintyDeg, source.code(), SkylineFlag.bits(limits));
    return this;
  }

  /**
   * Ends the building.
   *
   * @return the skyline, independent of this builder
   */
  public Skyline build() {
    return new Skyline(altitudeDeg.clone(), uncertaintyDeg.clone(), sources.clone(), flags.clone());
  }

  private static void requireAngles(double altitudeDeg, double uncertaintyDeg) {
    if (!(altitudeDeg >= -90.0 && altitudeDeg <= 90.0)) {
      throw new IllegalArgumentException(
          "expected an altitude in [-90, 90] degrees, found " + altitudeDeg);
    }
    if (!(uncertaintyDeg >= 0.0 && uncertaintyDeg <= 180.0)) {
      throw new IllegalArgumentException(
          "expected an uncertainty in [0, 180] degrees, found " + uncertaintyDeg);
    }
  }

  /** As set does, from stored bytes and without making objects. */
  void setStored(int step, float altitude, float uncertainty, byte source, byte limits) {
    requireAngles(altitude, uncertainty);
    SkylineSource.requireCode(source);
    setRaw(step, altitude, uncertainty, source, limits);
  }

  void setRaw(int step, float altitude, float uncertainty, byte source, byte limits) {
    altitudeDeg[step] = altitude;
    uncertaintyDeg[step] = uncertainty;
    sources[step] = source;
    flags[step] = limits;
  }
}
