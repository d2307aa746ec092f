package org.lightledger.skyline.terrain;

import java.util.Arrays;

/** Stretches of a ray where a surface has no height, in order of distance. */
final class Gaps {
  /** Stretches that touch closer than this are one, metres: rounding of distances. */
  private static final double TOUCH_M = 1e-6;

  private double[] fromM = new double[16];
  private double[] toM = new double[16];
  private boolean[] outside = new boolean[16];
  private int count;
  private boolean anyVoid;

  void clear() {
    count = 0;
    anyVoid = false;
  }

  void add(double from, double to, boolean isOutside) {
    if (to <= from) {
      return;
    }
    anyVoid |= !isOutside;
    if (count > 0 && outside[count - 1] == isOutside && from - toM[count - 1] <= TOUCH_M) {
      toM[count - 1] = to;
      return;
    }
    if (count == fromM.length) {
      fromM = Arrays.copyOf(fromM, 2 * count);
      toM = Arrays.copyOf(toM, 2 * count);
      outside = Arrays.copyOf(outside, 2 * count);
    }
    fromM[count] = from;
    toM[count] = to;
    outside[count] = isOutside;
    count++;
  }

  int count() {
    return count;
  }

  boolean anyVoid() {
    return anyVoid;
  }

  double fromM(int gap) {
    return fromM[gap];
  }

  double toM(int gap) {
    return toM[gap];
  }

  /** True when no file covers the stretch, false when its posts are void. */
  boolean outside(int gap) {
    return outside[gap];
  }
}
