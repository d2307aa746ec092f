package org.lightledger.scenario.render;

import java.util.stream.IntStream;

/**
 * What a bright sun does inside a lens: a veil that falls off with the square of the angle (the
 * shape of the CIE disability glare formula, Vos 1984, at a tenth of the eye's strength), a star
 * from the aperture's edges, and faint mirror images of the aperture.
 */
final class Glare {
  private static final double STRENGTH = 0.9;
  private static final double BLADES = 7;
  private static final double[][] GHOSTS = {
    {-0.35, 0.030, 0.0030}, {0.45, 0.018, 0.0055}, {0.80, 0.045, 0.0022}, {1.30, 0.075, 0.0016}
  };

  private Glare() {}

  /**
   * Adds the sun's glare to a picture.
   *
   * @param radiance three numbers per pixel
   * @param camera the camera
   * @param sky the sky
   * @param sunShare how much of the sun's disc the lens sees, in [0, 1]
   * @param fNumber relative aperture, which sharpens the star
   */
  static void add(float[] radiance, Camera camera, Sky sky, double sunShare, double fNumber) {
    double[] at = camera.project(sky.sun());
    if (sunShare <= 0 || at.length == 0) {
      return;
    }
    double span = Math.max(camera.width(), camera.height());
    double outside =
        Math.max(
            Math.max(-at[0], at[0] - camera.width()), Math.max(-at[1], at[1] - camera.height()));
    if (outside > 0.5 * span) {
      return;
    }
    double hood = outside <= 0 ? 1 : 0.35 * (1 - outside / (0.5 * span));
    Vec3 light = sky.beam().times(sunShare * hood);
    double star = outside <= 0 ? 0.35 + 0.10 * Math.min(8, fNumber) : 0;
    IntStream.range(0, camera.height())
        .parallel()
        .forEach(y -> row(radiance, camera, sky, at, light, star, span, y));
  }

  private static void row(
      float[] radiance,
      Camera camera,
      Sky sky,
      double[] at,
      Vec3 light,
      double star,
      double span,
      int y) {
    for (int x = 0; x < camera.width(); x++) {
      Vec3 direction = camera.direction(x + 0.5, y + 0.5);
      double cos = Math.min(1, direction.dot(sky.sun()));
      double deg = Math.toDegrees(Math.acos(cos));
      double veil = STRENGTH / (deg * deg + 0.35) * Math.exp(-deg / 22);
      double turn = Math.atan2(y + 0.5 - at[1], x + 0.5 - at[0]);
      double beam = Math.pow(Math.abs(Math.cos(turn * BLADES + 0.6)), 60);
      veil *= 1 + star * beam * 6 * Math.exp(-deg / 1.6);
      double tint = Math.min(1, deg / 12);
      Vec3 sum = light.times(veil).times(new Vec3(1, 1 - 0.10 * tint, 1 - 0.25 * tint));
      if (star > 0) {
        sum = sum.plus(ghosts(light, camera, at, span, x, y));
      }
      int i = 3 * (y * camera.width() + x);
      radiance[i] += (float) sum.x();
      radiance[i + 1] += (float) sum.y();
      radiance[i + 2] += (float) sum.z();
    }
  }

  private static Vec3 ghosts(Vec3 light, Camera camera, double[] at, double span, int x, int y) {
    double cx = camera.width() / 2.0;
    double cy = camera.height() / 2.0;
    Vec3 sum = Vec3.ZERO;
    for (double[] ghost : GHOSTS) {
      double gx = cx - (at[0] - cx) * ghost[0];
      double gy = cy - (at[1] - cy) * ghost[0];
      double radius = ghost[1] * span;
      double off = Math.hypot(x - gx, y - gy) / radius;
      if (off < 1.1) {
        double disc = 1 - Sky.smoothstep(0.92, 1.05, off);
        double rim = 0.55 + 0.45 * off * off;
        Vec3 tint = ghost[0] > 0.6 ? new Vec3(0.7, 1.0, 0.75) : new Vec3(1.0, 0.75, 0.5);
        sum = sum.plus(tint.times(light).times(ghost[2] * disc * rim));
      }
    }
    return sum;
  }
}
