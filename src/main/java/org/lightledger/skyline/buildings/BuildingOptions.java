package org.lightledger.skyline.buildings;

import org.lightledger.skyline.LineOfSight;

/**
 * How to look at buildings and trees.
 *
 * @param eyeHeightM the eye above the ground, metres, more than 0
 * @param lineOfSight how light bends
 * @param rangeM how far to look, metres in (0, 5000]; what begins farther is not seen
 */
public record BuildingOptions(double eyeHeightM, LineOfSight lineOfSight, double rangeM) {
  /** The plane around the place is exact enough this far, metres. */
  private static final double FARTHEST_M = 5000.0;

  /**
   * The usual way: eye and refraction as in {@link LineOfSight}, and a range of two kilometres,
   * where a house of ten metres stands 0.2 degrees high (own choice).
   */
  public static final BuildingOptions STANDARD =
      new BuildingOptions(LineOfSight.EYE_HEIGHT_M, LineOfSight.STANDARD, 2000.0);

  /**
   * Checks the options.
   *
   * @throws IllegalArgumentException when one is out of its interval or not a number
   */
  public BuildingOptions {
    if (!(eyeHeightM > 0.0 && eyeHeightM <= Heights.HIGHEST_M)) {
      throw new IllegalArgumentException(
          "expected an eye height in (0, 1000] metres, found " + eyeHeightM);
    }
    if (!(rangeM > 0.0 && rangeM <= FARTHEST_M)) {
      throw new IllegalArgumentException("expected a range in (0, 5000] metres, found " + rangeM);
    }
  }
}
