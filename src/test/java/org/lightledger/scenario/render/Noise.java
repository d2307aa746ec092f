package org.lightledger.scenario.render;

/** Smooth repeatable noise: value noise on a lattice with quintic fading (Perlin 2002). */
public final class Noise {
  private Noise() {}

  /** A repeatable number in [0, 1) for a lattice point. */
  static double hash(int x, int y, int z) {
    int h = x * 0x8DA6B343 ^ y * 0xD8163841 ^ z * 0xCB1AB31F;
    h ^= h >>> 15;
    h *= 0x2C1B3C6D;
    h ^= h >>> 12;
    h *= 0x297A2D39;
    h ^= h >>> 15;
    return (h >>> 8) * 0x1.0p-24;
  }

  /** Noise in [0, 1) with features one unit wide. */
  static double at(double x, double y, double z) {
    double fx = Math.floor(x);
    double fy = Math.floor(y);
    double fz = Math.floor(z);
    int ix = (int) fx;
    int iy = (int) fy;
    int iz = (int) fz;
    double u = fade(x - fx);
    double v = fade(y - fy);
    double w = fade(z - fz);
    double low = plane(ix, iy, iz, u, v);
    return w == 0 ? low : low + (plane(ix, iy, iz + 1, u, v) - low) * w;
  }

  private static double plane(int x, int y, int z, double u, double v) {
    double a = hash(x, y, z);
    double b = hash(x + 1, y, z);
    double c = hash(x, y + 1, z);
    double d = hash(x + 1, y + 1, z);
    double low = a + (b - a) * u;
    return low + (c + (d - c) * u - low) * v;
  }

  private static double fade(double t) {
    return t * t * t * (t * (t * 6 - 15) + 10);
  }

  /** Several octaves of noise, in [0, 1). */
  static double layers(double x, double y, double z, int octaves) {
    double sum = 0;
    double weight = 0;
    double amplitude = 1;
    double frequency = 1;
    for (int i = 0; i < octaves; i++) {
      sum += amplitude * at(x * frequency + 17.3 * i, y * frequency - 9.1 * i, z * frequency);
      weight += amplitude;
      amplitude *= 0.5;
      frequency *= 2.03;
    }
    return sum / weight;
  }

  /** Several octaves of noise over the plane, in [0, 1). */
  public static double layers(double x, double y, int octaves) {
    return layers(x, y, 0, octaves);
  }
}
