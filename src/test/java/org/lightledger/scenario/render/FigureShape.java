package org.lightledger.scenario.render;

/**
 * The stand-in for a client: a plain smooth figure 1.7 m tall, as a distance field of round shapes
 * blended into each other. It faces its own -y.
 */
final class FigureShape implements SurfaceNets.Field {
  private static final double HEM_M = 0.10;
  private static final double WAIST_M = 1.04;

  private final Outfit.Cut cut;
  private final double sway;

  private FigureShape(Outfit.Cut cut, double sway) {
    this.cut = cut;
    this.sway = sway;
  }

  /**
   * The figure.
   *
   * @param cut what it wears
   * @param sway varies the stance, in [-1, 1]
   */
  static Shape shape(Outfit.Cut cut, double sway) {
    Mesh mesh = new Mesh();
    SurfaceNets.mesh(
        mesh,
        new FigureShape(cut, sway),
        new Vec3(-0.52, -0.50, -0.04),
        new Vec3(0.52, 0.50, 1.80),
        0.0115);
    strands(mesh);
    return mesh.freeze();
  }

  /** Loose hair about the head, which is what lights up when the sun stands behind it. */
  private static void strands(Mesh mesh) {
    Dice dice = new Dice(77);
    for (int i = 0; i < 420; i++) {
      double turn = dice.between(0, 2 * Math.PI);
      double rise = dice.between(-0.2, 1.5);
      Vec3 way =
          new Vec3(
              Math.cos(rise) * Math.cos(turn), Math.cos(rise) * Math.sin(turn), Math.sin(rise));
      if (way.y() < -0.35 && way.z() < 0.65) {
        continue;
      }
      Vec3 root = new Vec3(way.x() * 0.085, 0.012 + way.y() * 0.10, 1.575 + way.z() * 0.115);
      Vec3 side = way.sideways().times(0.0011);
      Vec3 bend = new Vec3(dice.between(-0.03, 0.03), dice.between(-0.02, 0.04), -0.03);
      Vec3 tip = root.plus(way.times(dice.between(0.012, 0.035))).plus(bend);
      mesh.triangle(Surface.HAIR, root.plus(side), root.minus(side), tip);
    }
  }

  @Override
  public double distance(double x, double y, double z) {
    double body = smooth(clothes(x, y, z), skin(x, y, z), 0.012);
    double d = Math.min(body, hair(x, y, z));
    return cut == Outfit.Cut.DRESS_AND_HAT ? Math.min(d, hat(x, y, z)) : d;
  }

  @Override
  public Surface surface(double x, double y, double z) {
    double clothes = clothes(x, y, z);
    double skin = skin(x, y, z);
    double hair = hair(x, y, z);
    if (cut == Outfit.Cut.DRESS_AND_HAT && hat(x, y, z) < Math.min(hair, skin)) {
      return Surface.DRY_GRASS;
    }
    if (hair < Math.min(clothes, skin)) {
      return Surface.HAIR;
    }
    if (skin < clothes) {
      return cut == Outfit.Cut.COAT && z < 0.5 ? Surface.DARK_CLOTH : Surface.SKIN;
    }
    return Surface.CLOTH;
  }

  private double lean(double z) {
    return 0.022 * sway * Math.sin(2.6 * z - 0.8);
  }

  private double clothes(double x0, double y, double z) {
    double x = x0 - lean(z);
    double chest = ellipsoid(x, y + 0.012, z - 1.235, 0.142, 0.098, 0.155);
    double waist = ellipsoid(x, y, z - 1.05, 0.108, 0.082, 0.16);
    double shoulders = capsule(x, y, z, -0.145, 0.01, 1.365, 0.145, 0.01, 1.365, 0.052);
    double torso = smooth(smooth(chest, waist, 0.06), shoulders, 0.06);
    if (cut == Outfit.Cut.COAT) {
      double sleeves = Math.min(arm(x, y, z, -1, 0.046, 0.91), arm(x, y, z, 1, 0.046, 0.91));
      double collar = torus(x, y + 0.01, z - 1.425, 0.072, 0.026);
      return smooth(
          smooth(smooth(torso, skirt(x, y, z), 0.05) - 0.012, sleeves, 0.03), collar, 0.02);
    }
    double top = smooth(torso, skirt(x, y, z), 0.05);
    double sleeves = Math.min(sleeve(x, y, z, -1), sleeve(x, y, z, 1));
    return smooth(top, sleeves, 0.03);
  }

  private static double sleeve(double x, double y, double z, int side) {
    return capsule(x, y, z, side * 0.165, 0.012, 1.355, side * 0.205, 0.012, 1.24, 0.054);
  }

  /** The skirt of a dress, or a coat below the waist: round about the axis, in folds. */
  private double skirt(double x, double y, double z) {
    double hem = cut == Outfit.Cut.COAT ? 0.40 : HEM_M;
    double share = Math.max(0, Math.min(1, (WAIST_M - z) / (WAIST_M - hem)));
    double flare = cut == Outfit.Cut.COAT ? 0.095 : 0.255;
    double radius =
        0.112
            + 0.05 * Math.sin(Math.min(1, share * 2.6) * Math.PI / 2)
            + flare * Math.pow(share, 1.35);
    double turn = Math.atan2(y, x);
    double fold = Math.sin(9 * turn + 2.2 * sway + 1.4 * Math.sin(3 * turn) + 1.8 * share);
    radius *= 1 + (cut == Outfit.Cut.COAT ? 0.02 : 0.07) * share * fold;
    double level = Math.hypot(x - 0.05 * sway * share * share, y * 1.18);
    double around = (level - radius) * 0.86;
    double below = hem - z;
    double above = z - WAIST_M;
    return Math.max(around, Math.max(below, above));
  }

  private double skin(double x0, double y, double z) {
    double x = x0 - lean(z);
    double head = ellipsoid(x, y + 0.012, z - 1.565, 0.074, 0.088, 0.108);
    double jaw = ellipsoid(x, y + 0.035, z - 1.51, 0.052, 0.058, 0.06);
    double neck = capsule(x, y, z, 0, 0.012, 1.36, 0, -0.004, 1.50, 0.045);
    double upper = smooth(smooth(head, jaw, 0.03), neck, 0.03);
    double arms = Math.min(arm(x, y, z, -1, 0.036, 0.80), arm(x, y, z, 1, 0.036, 0.80));
    double legs = Math.min(leg(x, y, z, -1), leg(x, y, z, 1));
    return Math.min(smooth(upper, arms, 0.02), legs);
  }

  private double arm(double x, double y, double z, int side, double radius, double to) {
    double bent = side * sway > 0 ? 1 : 0;
    double ex = side * (0.235 + 0.05 * bent);
    double upper = capsule(x, y, z, side * 0.168, 0.012, 1.355, ex, 0.045, 1.09, radius + 0.006);
    double wx = side * (0.245 - 0.10 * bent);
    double wz = to + 0.05 + 0.15 * bent;
    double lower = capsule(x, y, z, ex, 0.045, 1.09, wx, -0.05 - 0.06 * bent, wz, radius - 0.004);
    double hand = ellipsoid(x - wx, y + 0.06 + 0.07 * bent, z - wz + 0.03, 0.03, 0.034, 0.055);
    double whole = smooth(upper, lower, 0.025);
    return to > 0.85 ? whole : smooth(whole, hand, 0.03);
  }

  private static double leg(double x, double y, double z, int side) {
    double shin = capsule(x, y, z, side * 0.085, 0.0, 0.85, side * 0.07, 0.015, 0.09, 0.046);
    double foot = ellipsoid(x - side * 0.085, y + 0.06, z - 0.035, 0.042, 0.115, 0.042);
    return smooth(shin, foot, 0.04);
  }

  private double hair(double x0, double y, double z) {
    double x = x0 - lean(z);
    double cap = ellipsoid(x, y - 0.014, z - 1.585, 0.089, 0.098, 0.112);
    double face = ellipsoid(x, y + 0.085, z - 1.535, 0.068, 0.075, 0.105);
    double crown = -smooth(-cap, face, 0.02);
    if (cut == Outfit.Cut.COAT) {
      double bun = ellipsoid(x, y - 0.105, z - 1.60, 0.052, 0.048, 0.05);
      return smooth(crown, bun, 0.02);
    }
    double wave = 0.006 * Math.sin(26 * z) + 0.004 * Math.sin(60 * x + 9 * z);
    double fall = capsule(x, y, z, 0, 0.070, 1.56, 0.01, 0.098, 1.24, 0.070) - wave;
    double flat = Math.max(fall, Math.abs(y - 0.085) - 0.055);
    return smooth(crown, flat, 0.035);
  }

  private double hat(double x0, double y, double z) {
    double x = x0 - lean(z);
    double brim = ellipsoid(x, y, z - 1.655 - 0.10 * (x * x), 0.215, 0.215, 0.014);
    double crown = ellipsoid(x, y, z - 1.675, 0.098, 0.105, 0.085);
    return smooth(brim, crown, 0.025);
  }

  private static double ellipsoid(double x, double y, double z, double a, double b, double c) {
    double k0 = Math.sqrt(x * x / (a * a) + y * y / (b * b) + z * z / (c * c));
    double k1 =
        Math.sqrt(x * x / (a * a * a * a) + y * y / (b * b * b * b) + z * z / (c * c * c * c));
    return k1 < 1e-9 ? -Math.min(a, Math.min(b, c)) : k0 * (k0 - 1) / k1;
  }

  private static double capsule(
      double x,
      double y,
      double z,
      double ax,
      double ay,
      double az,
      double bx,
      double by,
      double bz,
      double radius) {
    double dx = bx - ax;
    double dy = by - ay;
    double dz = bz - az;
    double t = ((x - ax) * dx + (y - ay) * dy + (z - az) * dz) / (dx * dx + dy * dy + dz * dz);
    double s = Math.max(0, Math.min(1, t));
    double px = x - ax - s * dx;
    double py = y - ay - s * dy;
    double pz = z - az - s * dz;
    return Math.sqrt(px * px + py * py + pz * pz) - radius;
  }

  private static double torus(double x, double y, double z, double ring, double radius) {
    return Math.hypot(Math.hypot(x, y) - ring, z) - radius;
  }

  /** The smooth minimum (polynomial, Quilez 2013). */
  private static double smooth(double a, double b, double k) {
    double h = Math.max(k - Math.abs(a - b), 0) / k;
    return Math.min(a, b) - h * h * k / 4;
  }
}
