package org.lightledger.scenario.render;

/**
 * Cellular noise (Worley 1996) over the plane: cobbles, rubble, pebbles. Reused from call to call.
 */
final class Cells {
  /** Distance to the nearest cell's middle. */
  double nearest;

  /** How much farther the second nearest is: 0 on the joints between cells. */
  double margin;

  /** A repeatable number in [0, 1) for the nearest cell. */
  double name;

  void at(double x, double y) {
    int cx = (int) Math.floor(x);
    int cy = (int) Math.floor(y);
    double first = 9;
    double second = 9;
    for (int j = cy - 1; j <= cy + 1; j++) {
      for (int i = cx - 1; i <= cx + 1; i++) {
        double px = i + 0.15 + 0.7 * Noise.hash(i, j, 71);
        double py = j + 0.15 + 0.7 * Noise.hash(i, j, 137);
        double d = Math.hypot(px - x, py - y);
        if (d < first) {
          second = first;
          first = d;
          name = Noise.hash(i, j, 211);
        } else if (d < second) {
          second = d;
        }
      }
    }
    nearest = first;
    margin = second - first;
  }
}
