package org.lightledger.scenario.render;

/**
 * A half-line with a search interval and the working memory of one walk through a tree of boxes.
 */
final class Ray {
  final int[] stack = new int[96];
  final double[] entries = new double[96];
  double ox;
  double oy;
  double oz;
  double dx;
  double dy;
  double dz;
  double ix;
  double iy;
  double iz;

  /** Where the search ends, in lengths of the direction. A hit shortens it. */
  double end;

  void aim(double x, double y, double z, double towardsX, double towardsY, double towardsZ) {
    ox = x;
    oy = y;
    oz = z;
    dx = towardsX;
    dy = towardsY;
    dz = towardsZ;
    ix = 1 / towardsX;
    iy = 1 / towardsY;
    iz = 1 / towardsZ;
  }
}
