package org.lightledger.scenario.render;

/** What the rays brought home, per pixel: light by its way, and what is needed to smooth it. */
final class Film {
  final int width;
  final int height;

  /** Light that is kept as it is: sun, sky, mirror images, haze. Three numbers per pixel. */
  final float[] direct;

  /** The sky's and surroundings' light that falls on the surface, before its colour. */
  final float[] falling;

  /** The surface's colour that the falling light is to be multiplied with. */
  final float[] colour;

  /** The surface's normal. */
  final float[] normal;

  /** Distance along the view, metres; 0 for the sky. */
  final float[] depth;

  /** Share of the pixel covered by leaves and blades. */
  final float[] foliage;

  /** Share of the pixel covered by the stand-in. */
  final float[] figure;

  Film(int width, int height) {
    this.width = width;
    this.height = height;
    int n = width * height;
    direct = new float[3 * n];
    falling = new float[3 * n];
    colour = new float[3 * n];
    normal = new float[3 * n];
    depth = new float[n];
    foliage = new float[n];
    figure = new float[n];
  }

  /** The picture's radiance, three numbers per pixel. */
  float[] radiance(float[] smoothed) {
    float[] sum = new float[direct.length];
    for (int i = 0; i < sum.length; i++) {
      sum[i] = direct[i] + colour[i] * smoothed[i];
    }
    return sum;
  }
}
