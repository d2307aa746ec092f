package org.lightledger.scenario.render;

/** The colour and relief of what is built. One per thread. */
final class MasonryPaint {
  private static final Vec3[] PLASTERS = {
    new Vec3(0.70, 0.64, 0.53),
    new Vec3(0.72, 0.69, 0.63),
    new Vec3(0.62, 0.46, 0.29),
    new Vec3(0.66, 0.55, 0.40),
    new Vec3(0.60, 0.40, 0.30)
  };

  private final Cells cells = new Cells();

  void plaster(Hit hit, Look look) {
    double u = alongWall(hit);
    double v = hit.own.z();
    Vec3 base = PLASTERS[(int) (hit.tint * 0.999 * PLASTERS.length)];
    double stain = Noise.layers(u * 0.5 + hit.tint * 50, v * 0.5, 4);
    double damp = 1 - 0.3 * (1 - Sky.smoothstep(0.2, 1.4, v + 0.6 * stain));
    look.albedo = base.times((0.9 + 0.18 * stain) * damp);
    roughen(hit, look, 14, 0.10);
  }

  void rubble(Hit hit, Look look) {
    double u = alongWall(hit) * 3.8;
    double v = hit.own.z() * 6.8;
    if (Math.abs(hit.ownFlat.z()) > 0.7) {
      v = hit.own.y() * 6.8;
    }
    cells.at(u, v);
    double name = cells.name;
    double joint = 1 - Sky.smoothstep(0.03, 0.17, cells.margin);
    double h = Sky.smoothstep(0, 0.35, cells.margin);
    double step = 0.03;
    cells.at(u + step, v);
    double hu = Sky.smoothstep(0, 0.35, cells.margin);
    cells.at(u, v + step);
    double hv = Sky.smoothstep(0, 0.35, cells.margin);
    Vec3 stone =
        new Vec3(0.36, 0.29, 0.215)
            .mix(new Vec3(0.27, 0.255, 0.235), Noise.hash((int) (name * 9999), 1, 1))
            .times(0.65 + 0.65 * name);
    double moss = Noise.layers(u * 0.2, v * 0.2, 3);
    double close = 1 / (1 + hit.distance / 40);
    look.albedo =
        stone
            .times(0.8 + 0.4 * moss)
            .mix(new Vec3(0.36, 0.32, 0.26), joint * 0.75 * Math.min(1, 1.6 * close));
    double slope = 0.42 * close * 0.03 / step;
    tiltWall(hit, look, -(hu - h) * slope * 3, -(hv - h) * slope * 4);
  }

  void ashlar(Hit hit, Look look) {
    double u = alongWall(hit);
    double v = hit.own.z();
    double row = Math.floor(v / 0.34);
    double shift = Noise.hash((int) row, 5, 9);
    double block = Math.floor(u / 0.62 + shift);
    double inU = u / 0.62 + shift - block;
    double inV = v / 0.34 - row;
    double edge = Math.min(Math.min(inU, 1 - inU) * 0.62, Math.min(inV, 1 - inV) * 0.34);
    double joint = 1 - Sky.smoothstep(0.004, 0.014, edge);
    double tone = 0.82 + 0.36 * Noise.hash((int) row, (int) block, 4);
    double stain = Noise.layers(u * 0.7, v * 0.7, 4);
    double close = 1 / (1 + hit.distance / 25);
    look.albedo =
        new Vec3(0.50, 0.43, 0.33)
            .times(tone * (0.75 + 0.45 * stain))
            .mix(new Vec3(0.26, 0.22, 0.17), joint * 0.7 * close);
    roughen(hit, look, 11, 0.16);
  }

  void roof(Hit hit, Look look) {
    double u = hit.own.x();
    double down = Math.abs(hit.own.y());
    double close = 1 / (1 + hit.distance / 45);
    double wave = u / 0.24;
    double column = Math.floor(wave);
    double row = Math.floor(down / 0.36 + 0.5 * Noise.hash((int) column, 3, 3));
    double tone = 0.7 + 0.6 * Noise.hash((int) column, (int) row, 8);
    double lichen = Noise.layers(u * 0.6, hit.own.y() * 0.6, 3);
    Vec3 tile =
        new Vec3(0.36, 0.17, 0.095)
            .mix(new Vec3(0.42, 0.27, 0.16), Noise.hash((int) row, (int) column, 15));
    look.albedo = tile.times((1 + (tone - 1) * Math.min(1, close * 1.5)) * (0.75 + 0.5 * lichen));
    double lean = Math.sin(2 * Math.PI * (wave - column)) * 0.75 * close;
    Vec3 across = along(hit, new Vec3(1, 0, 0));
    look.normal = hit.normal.plus(across.times(lean)).unit();
  }

  void wood(Hit hit, Look look) {
    double u = alongWall(hit);
    double v = hit.own.z();
    double board = Math.floor(u / 0.16);
    double inside = u / 0.16 - board;
    double gap = inside < 0.07 ? 0.35 : 1;
    double streak = Noise.layers(u * 60, v * 2.5, 3);
    double tone = 0.75 + 0.5 * Noise.hash((int) board, 2, 7);
    Vec3 grey = new Vec3(0.26, 0.22, 0.18);
    look.albedo =
        grey.mix(new Vec3(0.24, 0.14, 0.075), 0.55).times(gap * tone * (0.65 + 0.7 * streak));
    roughen(hit, look, 30, 0.12);
  }

  private static double alongWall(Hit hit) {
    return Math.abs(hit.ownFlat.x()) > Math.abs(hit.ownFlat.y()) ? hit.own.y() : hit.own.x();
  }

  private static void roughen(Hit hit, Look look, double frequency, double depth) {
    Vec3 p = hit.own;
    double f = frequency;
    double d = depth / (1 + hit.distance / 20);
    look.normal =
        hit.normal
            .plus(
                new Vec3(
                    d * (Noise.at(p.x() * f, p.y() * f, p.z() * f) - 0.5),
                    d * (Noise.at(p.x() * f + 40, p.y() * f, p.z() * f) - 0.5),
                    d * (Noise.at(p.x() * f, p.y() * f + 40, p.z() * f) - 0.5)))
            .unit();
  }

  private static void tiltWall(Hit hit, Look look, double alongU, double alongV) {
    boolean facesX = Math.abs(hit.ownFlat.x()) > Math.abs(hit.ownFlat.y());
    Vec3 u = along(hit, facesX ? new Vec3(0, 1, 0) : new Vec3(1, 0, 0));
    look.normal = hit.normal.plus(u.times(alongU)).plus(Vec3.UP.times(alongV)).unit();
  }

  /** Turns a direction of the shape's own frame into the scenario's, by the two flat normals. */
  private static Vec3 along(Hit hit, Vec3 own) {
    Vec3 f = hit.ownFlat;
    Vec3 w = hit.flat;
    double level = f.x() * f.x() + f.y() * f.y();
    if (level < 1e-9) {
      return own;
    }
    double cos = (f.x() * w.x() + f.y() * w.y()) / level;
    double sin = (f.x() * w.y() - f.y() * w.x()) / level;
    return new Vec3(cos * own.x() - sin * own.y(), sin * own.x() + cos * own.y(), own.z());
  }
}
