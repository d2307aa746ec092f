package org.lightledger.skyline.terrain;

/** Leads from latitude and longitude to the columns and rows of a lattice of posts. */
interface GridMapping {

  /**
   * Maps places.
   *
   * @param latLonDeg latitude and longitude by turns, degrees; longitudes may run past 180
   * @param colRow receives column (eastward or along the grid) and row (southward) by turns; whole
   *     numbers are posts
   * @param places how many
   */
  void toGrid(double[] latLonDeg, double[] colRow, int places);
}
