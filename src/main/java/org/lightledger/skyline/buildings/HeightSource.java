package org.lightledger.skyline.buildings;

/** Where the height of an obstruction comes from. */
public enum HeightSource {
  /** Somebody wrote it down. */
  GIVEN,
  /** Counted storeys. */
  LEVELS,
  /** Nobody knows: the kind's own height. */
  ASSUMED;

  /**
   * How uncertain such a height is: own choice, no source. A metre for a given height, which may be
   * of the eaves; a storey for counted ones, for the roof is not counted; half of an assumed one.
   *
   * @param heightM the height, metres
   * @return one standard deviation, metres
   */
  double sigmaM(double heightM) {
    return switch (this) {
      case GIVEN -> 1.0;
      case LEVELS -> Heights.STOREY_M;
      case ASSUMED -> heightM / 2.0;
    };
  }
}
