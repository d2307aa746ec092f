package org.lightledger.skyline;

import java.util.Arrays;
import java.util.Set;
import org.lightledger.geo.Angles;
import org.lightledger.sun.SunDirection;

/**
 * The apparent altitude of the highest obstruction around a spot, at {@value #STEPS} azimuths
 * {@value #STEP_DEG} degrees apart, azimuth 0 first. Each value holds at its azimuth exactly and
 * carries where it came from, how uncertain it is (one standard deviation) and what limits it.
 *
 * <p>Between two azimuths, altitude and uncertainty are interpolated linearly, across north too.
 * The step is about the width of the sun's disc (0.53 degrees), so that what is narrower than a
 * step can not hide the whole sun.
 *
 * <p>Immutable; safe for use by several threads.
 */
public final class Skyline {
  /** How many azimuths. */
  public static final int STEPS = 720;

  /** How far apart they are, degrees. */
  public static final double STEP_DEG = 0.5;

  private static final Skyline NOT_KNOWN = notKnownAnywhere();

  private final float[] altitudeDeg;
  private final float[] uncertaintyDeg;
  private final byte[] sources;
  private final byte[] flags;

  /** Takes the arrays over; nobody else may keep them. */
  Skyline(float[] altitudeDeg, float[] uncertaintyDeg, byte[] sources, byte[] flags) {
    this.altitudeDeg = altitudeDeg;
    this.uncertaintyDeg = uncertaintyDeg;
    this.sources = sources;
    this.flags = flags;
  }

  private static Skyline notKnownAnywhere() {
    byte[] flags = new byte[STEPS];
    Arrays.fill(flags, SkylineFlag.NO_TERRAIN.bit());
    return new Skyline(new float[STEPS], new float[STEPS], new byte[STEPS], flags);
  }

  /**
   * The skyline of a spot about which nothing is known: a level horizon, marked as not known.
   *
   * @return it
   */
  public static Skyline notKnown() {
    return NOT_KNOWN;
  }

  /**
   * Reads a skyline from the bytes that {@link #toBytes} wrote.
   *
   * @param bytes of this or an earlier version
   * @return the skyline
   * @throws IllegalArgumentException when they are not a skyline that this version reads
   */
  public static Skyline fromBytes(byte[] bytes) {
    return SkylineBytes.read(bytes);
  }

  /**
   * The azimuth of a step.
   *
   * @param step from 0 to 719
   * @return degrees in [0, 360)
   */
  public static double azimuthDeg(int step) {
    return step * STEP_DEG;
  }

  /**
   * The altitude at a step's azimuth.
   *
   * @param step from 0 to 719
   * @return apparent altitude, degrees in [-90, 90]
   */
  public double altitudeDeg(int step) {
    return altitudeDeg[step];
  }

  /**
   * The uncertainty at a step's azimuth.
   *
   * @param step from 0 to 719
   * @return one standard deviation, degrees, 0 or more
   */
  public double uncertaintyDeg(int step) {
    return uncertaintyDeg[step];
  }

  /**
   * Where a value comes from.
   *
   * @param step from 0 to 719
   * @return the source
   */
  public SkylineSource source(int step) {
    return SkylineSource.ofCode(sources[step]);
  }

  /**
   * What limits a value.
   *
   * @param step from 0 to 719
   * @return the flags; none when the value is the skyline as far as the source can tell
   */
  public Set<SkylineFlag> flags(int step) {
    return SkylineFlag.ofBits(flags[step]);
  }

  /**
   * Tells whether the skyline may be higher than the value, by more than its uncertainty.
   *
   * @param step from 0 to 719
   * @return true when the value is a lower bound only
   */
  public boolean lowerBoundOnly(int step) {
    return flags(step).stream().anyMatch(SkylineFlag::lowerBound);
  }

  /**
   * The altitude in any direction, linear between the two steps beside it.
   *
   * @param azimuthDeg any finite angle, degrees
   * @return apparent altitude, degrees in [-90, 90]
   */
  public double altitudeDegAt(double azimuthDeg) {
    return interpolated(altitudeDeg, azimuthDeg);
  }

  /**
   * The uncertainty in any direction, linear between the two steps beside it.
   *
   * @param azimuthDeg any finite angle, degrees
   * @return one standard deviation, degrees, 0 or more
   */
  public double uncertaintyDegAt(double azimuthDeg) {
    return interpolated(uncertaintyDeg, azimuthDeg);
  }

  /**
   * The highest altitude along the shorter arc between two azimuths.
   *
   * @param oneDeg any finite angle, degrees
   * @param otherDeg any finite angle, degrees
   * @return apparent altitude, degrees in [-90, 90]
   */
  public double highestDegBetween(double oneDeg, double otherDeg) {
    return extremeBetween(oneDeg, otherDeg, 1.0);
  }

  /**
   * The lowest altitude along the shorter arc between two azimuths.
   *
   * @param oneDeg any finite angle, degrees
   * @param otherDeg any finite angle, degrees
   * @return apparent altitude, degrees in [-90, 90]
   */
  public double lowestDegBetween(double oneDeg, double otherDeg) {
    return -extremeBetween(oneDeg, otherDeg, -1.0);
  }

  /** The altitudes are linear between steps, so only the ends and the steps between them count. */
  private double extremeBetween(double oneDeg, double otherDeg, double sign) {
    double turnDeg = Angles.turnDeg(oneDeg, otherDeg);
    double startDeg = Angles.normalizeDeg(turnDeg < 0.0 ? otherDeg : oneDeg);
    double endDeg = startDeg + Math.abs(turnDeg);
    double extreme = Math.max(sign * altitudeDegAt(startDeg), sign * altitudeDegAt(endDeg));
    int last = (int) (endDeg / STEP_DEG);
    for (int step = (int) Math.ceil(startDeg / STEP_DEG); step <= last; step++) {
      extreme = Math.max(extreme, sign * altitudeDeg[step % STEPS]);
    }
    return extreme;
  }

  /**
   * Tells whether anything is known of the skyline in a direction.
   *
   * @param azimuthDeg any finite angle, degrees
   * @return true when both steps beside it have a source
   */
  public boolean knownAt(double azimuthDeg) {
    int before = before(Angles.normalizeDeg(azimuthDeg));
    byte nowhere = SkylineSource.NOT_KNOWN.code();
    return sources[before] != nowhere && sources[after(before)] != nowhere;
  }

  /**
   * How the sun stands to the skyline.
   *
   * @param sun its direction
   * @return the margin of the disc's centre with what it rests on
   */
  public Clearance clearance(SunDirection sun) {
    double azimuthDeg = sun.azimuth().trueDeg();
    int before = before(azimuthDeg);
    int after = after(before);
    double part = azimuthDeg / STEP_DEG - before;
    return new Clearance(
        sun.apparentAltitudeDeg() - altitudeDegAt(azimuthDeg),
        uncertaintyDegAt(azimuthDeg),
        source(part < 0.5 ? before : after),
        lowerBoundOnly(before) || (part > 0.0 && lowerBoundOnly(after)));
  }

  /**
   * The higher of two skylines at each azimuth, with the source and uncertainty of the higher one.
   * A known value stands before one that is not known, even when it is lower. What limits either
   * limits the result, but terrain is missing only where it is missing in both.
   *
   * @param other the other skyline of the same spot
   * @return both in one
   */
  public Skyline combine(Skyline other) {
    SkylineBuilder builder = new SkylineBuilder();
    byte noTerrain = SkylineFlag.NO_TERRAIN.bit();
    for (int step = 0; step < STEPS; step++) {
      boolean otherStands =
          sources[step] == SkylineSource.NOT_KNOWN.code()
              || (other.sources[step] != SkylineSource.NOT_KNOWN.code()
                  && other.altitudeDeg[step] > altitudeDeg[step]);
      byte both =
          (byte)
              (((flags[step] | other.flags[step]) & ~noTerrain)
                  | (flags[step] & other.flags[step] & noTerrain));
      Skyline standing = otherStands ? other : this;
      builder.setRaw(
          step,
          standing.altitudeDeg[step],
          standing.uncertaintyDeg[step],
          standing.sources[step],
          both);
    }
    return builder.build();
  }

  /**
   * The skyline as bytes for a database, always in the same byte order.
   *
   * @return a version byte and the values
   */
  public byte[] toBytes() {
    return SkylineBytes.write(altitudeDeg, uncertaintyDeg, sources, flags);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Skyline that
        && Arrays.equals(altitudeDeg, that.altitudeDeg)
        && Arrays.equals(uncertaintyDeg, that.uncertaintyDeg)
        && Arrays.equals(sources, that.sources)
        && Arrays.equals(flags, that.flags);
  }

  @Override
  public int hashCode() {
    return 31 * Arrays.hashCode(altitudeDeg) + Arrays.hashCode(sources);
  }

  private static double interpolated(float[] values, double azimuthDeg) {
    double turned = Angles.normalizeDeg(azimuthDeg);
    int before = before(turned);
    double part = turned / STEP_DEG - before;
    return values[before] + part * (values[after(before)] - values[before]);
  }

  /** The step at or before an azimuth in [0, 360). */
  private static int before(double azimuthDeg) {
    return (int) (azimuthDeg / STEP_DEG);
  }

  private static int after(int step) {
    return step + 1 == STEPS ? 0 : step + 1;
  }
}
