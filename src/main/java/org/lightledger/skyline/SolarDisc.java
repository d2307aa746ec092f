package org.lightledger.skyline;

/** The sun as a disc. */
final class SolarDisc {
  /**
   * Half of its mean width, degrees: 959.63 arc seconds (Auwers 1891, the semidiameter of the
   * almanacs: Seidelmann, Explanatory Supplement to the Astronomical Almanac, 1992, table 15.4).
   * Through the year it changes by 1.7 percent.
   */
  static final double RADIUS_DEG = 959.63 / 3600.0;

  private SolarDisc() {}
}
