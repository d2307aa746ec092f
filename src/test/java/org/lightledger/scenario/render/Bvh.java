package org.lightledger.scenario.render;

import java.util.Arrays;

/** A tree of boxes over items, split by the binned surface area heuristic (Wald 2007). */
final class Bvh {
  /** Tests one item against a ray; a hit shortens the ray and is remembered by the implementer. */
  interface Items {
    boolean hit(int item, Ray ray);
  }

  private static final int BINS = 12;
  private static final int LEAF_SIZE = 4;

  private final float[] boxes;
  private final int[] order;
  private float[] nodes;
  private int[] links;
  private byte[] counts;
  private int used;

  /**
   * Builds the tree.
   *
   * @param boxes six numbers per item: lowest x, y, z, highest x, y, z
   */
  Bvh(float[] boxes) {
    this.boxes = boxes;
    int n = boxes.length / 6;
    order = new int[n];
    for (int i = 0; i < n; i++) {
      order[i] = i;
    }
    int room = Math.max(1, 2 * n);
    nodes = new float[6 * room];
    links = new int[room];
    counts = new byte[room];
    build(0, n);
    nodes = Arrays.copyOf(nodes, 6 * used);
    links = Arrays.copyOf(links, used);
    counts = Arrays.copyOf(counts, used);
  }

  /** The box around everything: lowest x, y, z, highest x, y, z. */
  float[] bounds() {
    return Arrays.copyOf(nodes, 6);
  }

  private int build(int from, int to) {
    int node = used++;
    float[] around = around(from, to);
    System.arraycopy(around, 0, nodes, 6 * node, 6);
    int n = to - from;
    int middle = n <= LEAF_SIZE ? -1 : split(from, to);
    if (middle < 0) {
      links[node] = from;
      counts[node] = (byte) n;
      return node;
    }
    build(from, middle);
    links[node] = build(middle, to);
    return node;
  }

  private float[] around(int from, int to) {
    float[] box = emptyBox();
    for (int i = from; i < to; i++) {
      grow(box, 0, 6 * order[i]);
    }
    return box;
  }

  private static float[] emptyBox() {
    float up = Float.POSITIVE_INFINITY;
    return new float[] {up, up, up, -up, -up, -up};
  }

  private void grow(float[] target, int at, int item) {
    for (int k = 0; k < 3; k++) {
      target[at + k] = Math.min(target[at + k], boxes[item + k]);
      target[at + 3 + k] = Math.max(target[at + 3 + k], boxes[item + 3 + k]);
    }
  }

  private double centre(int item, int axis) {
    return 0.5 * ((double) boxes[6 * item + axis] + boxes[6 * item + 3 + axis]);
  }

  private int split(int from, int to) {
    int bestAxis = -1;
    double bestCost = Double.POSITIVE_INFINITY;
    double bestEdge = 0;
    for (int axis = 0; axis < 3; axis++) {
      double low = Double.POSITIVE_INFINITY;
      double high = Double.NEGATIVE_INFINITY;
      for (int i = from; i < to; i++) {
        double c = centre(order[i], axis);
        low = Math.min(low, c);
        high = Math.max(high, c);
      }
      if (high - low < 1e-6) {
        continue;
      }
      float[] bins = new float[6 * BINS];
      int[] inBin = new int[BINS];
      for (int b = 0; b < BINS; b++) {
        System.arraycopy(emptyBox(), 0, bins, 6 * b, 6);
      }
      double scale = BINS * 0.99999 / (high - low);
      for (int i = from; i < to; i++) {
        int b = (int) ((centre(order[i], axis) - low) * scale);
        inBin[b]++;
        grow(bins, 6 * b, 6 * order[i]);
      }
      double[] leftCost = new double[BINS];
      sweep(bins, inBin, leftCost, true);
      double[] rightCost = new double[BINS];
      sweep(bins, inBin, rightCost, false);
      for (int b = 0; b < BINS - 1; b++) {
        double cost = leftCost[b] + rightCost[b + 1];
        if (cost < bestCost) {
          bestCost = cost;
          bestAxis = axis;
          bestEdge = low + (b + 1) / scale;
        }
      }
    }
    if (bestAxis < 0) {
      return to - from <= 100 ? -1 : (from + to) / 2;
    }
    int middle = partition(from, to, bestAxis, bestEdge);
    return middle == from || middle == to ? (from + to) / 2 : middle;
  }

  private static void sweep(float[] bins, int[] inBin, double[] cost, boolean upward) {
    float[] box = emptyBox();
    int n = 0;
    for (int step = 0; step < BINS; step++) {
      int b = upward ? step : BINS - 1 - step;
      for (int k = 0; k < 3; k++) {
        box[k] = Math.min(box[k], bins[6 * b + k]);
        box[3 + k] = Math.max(box[3 + k], bins[6 * b + 3 + k]);
      }
      n += inBin[b];
      double a = box[3] - box[0];
      double d = box[4] - box[1];
      double h = box[5] - box[2];
      cost[b] = n == 0 ? 0 : n * (a * d + d * h + h * a);
    }
  }

  private int partition(int from, int to, int axis, double edge) {
    int left = from;
    int right = to - 1;
    while (left <= right) {
      if (centre(order[left], axis) < edge) {
        left++;
      } else {
        int swap = order[left];
        order[left] = order[right];
        order[right--] = swap;
      }
    }
    return left;
  }

  /** Walks the boxes along a ray; with {@code any} the first hit found ends the walk. */
  boolean walk(Ray ray, Items items, boolean any) {
    int[] stack = ray.stack;
    double[] entries = ray.entries;
    int top = 0;
    boolean found = false;
    int node = 0;
    if (entry(0, ray) == Double.POSITIVE_INFINITY) {
      return false;
    }
    while (true) {
      int n = counts[node];
      if (n > 0) {
        int first = links[node];
        for (int i = first; i < first + n; i++) {
          if (items.hit(order[i], ray)) {
            found = true;
            if (any) {
              return true;
            }
          }
        }
      } else if (order.length > 0) {
        int left = node + 1;
        int right = links[node];
        double l = entry(left, ray);
        double r = entry(right, ray);
        if (l <= r) {
          if (l != Double.POSITIVE_INFINITY) {
            if (r != Double.POSITIVE_INFINITY) {
              entries[top] = r;
              stack[top++] = right;
            }
            node = left;
            continue;
          }
        } else {
          if (l != Double.POSITIVE_INFINITY) {
            entries[top] = l;
            stack[top++] = left;
          }
          node = right;
          continue;
        }
      }
      do {
        if (top == 0) {
          return found;
        }
        node = stack[--top];
      } while (entries[top] >= ray.end);
    }
  }

  private double entry(int node, Ray ray) {
    int at = 6 * node;
    float[] box = nodes;
    double t1 = (box[at] - ray.ox) * ray.ix;
    double t2 = (box[at + 3] - ray.ox) * ray.ix;
    double near = Math.min(t1, t2);
    double far = Math.max(t1, t2);
    t1 = (box[at + 1] - ray.oy) * ray.iy;
    t2 = (box[at + 4] - ray.oy) * ray.iy;
    near = Math.max(near, Math.min(t1, t2));
    far = Math.min(far, Math.max(t1, t2));
    t1 = (box[at + 2] - ray.oz) * ray.iz;
    t2 = (box[at + 5] - ray.oz) * ray.iz;
    near = Math.max(near, Math.min(t1, t2));
    far = Math.min(far, Math.max(t1, t2));
    near = Math.max(near, 0);
    return near <= far * 1.0000004 && near < ray.end ? near : Double.POSITIVE_INFINITY;
  }
}
