package org.lightledger.skyline.terrain;

import org.lightledger.skyline.LineOfSight;

/**
 * How to look at the land.
 *
 * @param eyeHeightM the eye above the ground, metres, more than 0
 * @param lineOfSight how light bends
 * @param reachM how far to look, metres in (0, 300000]; what is farther is not seen
 * @param knownToM a ray that leaves the known elevation nearer than this is marked, metres in [0,
 *     reachM]
 * @param heightSigmaM standard deviation of one height of the model, metres, 0 or more
 */
public record TerrainOptions(
    double eyeHeightM,
    LineOfSight lineOfSight,
    double reachM,
    double knownToM,
    double heightSigmaM) {

  /**
   * The usual way: eye and refraction as in {@link LineOfSight}; a reach of 100 kilometres, where
   * land must stand 683 metres above the eye to show over a level horizon, and known land for 50,
   * where it must stand 171 metres above (both own choice); and the error of the SRTM, 9.0 metres
   * at 90 percent, which is 5.5 at one standard deviation (Farr and others, The Shuttle Radar
   * Topography Mission, Reviews of Geophysics 45, 2007, table 1, the worst continent).
   */
  public static final TerrainOptions STANDARD =
      new TerrainOptions(
          LineOfSight.EYE_HEIGHT_M, LineOfSight.STANDARD, 100_000.0, 50_000.0, 9.0 / 1.645);

  /** The farthest reach, metres: the path of a ray is exact enough that far. */
  private static final double FARTHEST_M = 300_000.0;

  /**
   * Checks the options.
   *
   * @throws IllegalArgumentException when one is out of its interval or not a number
   */
  public TerrainOptions {
    if (!(eyeHeightM > 0.0 && eyeHeightM <= 1000.0)) {
      throw new IllegalArgumentException(
          "expected an eye height in (0, 1000] metres, found " + eyeHeightM);
    }
    if (!(reachM > 0.0 && reachM <= FARTHEST_M)) {
      throw new IllegalArgumentException("expected a reach in (0, 300000] metres, found " + reachM);
    }
    if (!(knownToM >= 0.0 && knownToM <= reachM)) {
      throw new IllegalArgumentException(
          "expected known land up to a distance in [0, %s] metres, found %s"
              .formatted(reachM, knownToM));
    }
    if (!(heightSigmaM >= 0.0 && heightSigmaM <= 1000.0)) {
      throw new IllegalArgumentException(
          "expected a standard deviation in [0, 1000] metres, found " + heightSigmaM);
    }
  }

  /**
   * The same but for the reach, with known land asked for at most as far.
   *
   * @param newReachM metres in (0, 300000]
   * @return changed options
   */
  public TerrainOptions withReachM(double newReachM) {
    return new TerrainOptions(
        eyeHeightM, lineOfSight, newReachM, Math.min(knownToM, newReachM), heightSigmaM);
  }
}
