package org.lightledger.scenario.render;

import java.util.stream.IntStream;

/**
 * Takes the grain out of the sky's light on surfaces without touching their texture or edges:
 * edge-avoiding à-trous wavelets (Dammertz, Sewtz, Hanika and Lensch 2010), guided by normal and
 * depth.
 */
final class Smoother {
  private static final double[] KERNEL = {3.0 / 8, 1.0 / 4, 1.0 / 16};

  private Smoother() {}

  static float[] smooth(Film film) {
    float[] current = film.falling;
    for (int step = 1; step <= 4; step *= 2) {
      current = pass(film, current, step);
    }
    return current;
  }

  private static float[] pass(Film film, float[] from, int step) {
    float[] to = new float[from.length];
    IntStream.range(0, film.height)
        .parallel()
        .forEach(
            y -> {
              for (int x = 0; x < film.width; x++) {
                pixel(film, from, to, step, x, y);
              }
            });
    return to;
  }

  private static void pixel(Film film, float[] from, float[] to, int step, int x, int y) {
    int i = y * film.width + x;
    double depth = film.depth[i];
    double r = 0;
    double g = 0;
    double b = 0;
    double total = 0;
    for (int dy = -2; dy <= 2; dy++) {
      int v = y + dy * step;
      if (v < 0 || v >= film.height) {
        continue;
      }
      for (int dx = -2; dx <= 2; dx++) {
        int u = x + dx * step;
        if (u < 0 || u >= film.width) {
          continue;
        }
        int j = v * film.width + u;
        if (film.depth[j] <= 0 && j != i) {
          continue;
        }
        double weight = KERNEL[Math.abs(dx)] * KERNEL[Math.abs(dy)];
        if (j != i) {
          double far = Math.abs(film.depth[j] - depth) / (depth + 0.3);
          weight *= Math.exp(-far * 14);
          double across = Math.abs(film.figure[i] - film.figure[j]);
          weight *= Math.max(0, 1 - 2 * across);
          double apart = Math.abs(film.foliage[i] - film.foliage[j]);
          weight *= Math.max(0.02, 1 - apart);
          if (film.foliage[i] < 0.5) {
            double dot =
                film.normal[3 * i] * film.normal[3 * j]
                    + film.normal[3 * i + 1] * film.normal[3 * j + 1]
                    + film.normal[3 * i + 2] * film.normal[3 * j + 2];
            double close = Math.max(0, dot);
            weight *= close * close * close * close;
          }
        }
        r += weight * from[3 * j];
        g += weight * from[3 * j + 1];
        b += weight * from[3 * j + 2];
        total += weight;
      }
    }
    double scale = total > 0 ? 1 / total : 0;
    to[3 * i] = (float) (r * scale);
    to[3 * i + 1] = (float) (g * scale);
    to[3 * i + 2] = (float) (b * scale);
  }
}
