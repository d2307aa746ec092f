package org.lightledger.map.osm;

import java.util.Arrays;

/** A growing list of whole numbers without a box around each. */
final class Longs {
  private long[] values = new long[64];
  private int size;

  void add(long value) {
    if (size == values.length) {
      values = Arrays.copyOf(values, 2 * size);
    }
    values[size++] = value;
  }

  int size() {
    return size;
  }

  /** The values in the order they came. */
  long[] take() {
    return Arrays.copyOf(values, size);
  }

  /** Each value once, ascending; the list is empty afterwards. */
  long[] takeSorted() {
    Arrays.sort(values, 0, size);
    int kept = 0;
    for (int i = 0; i < size; i++) {
      if (i == 0 || values[i] != values[i - 1]) {
        values[kept++] = values[i];
      }
    }
    long[] sorted = Arrays.copyOf(values, kept);
    values = new long[0];
    size = 0;
    return sorted;
  }
}
