package org.lightledger.scenario.render;

/** Patches of grass, wheat and reed, and lengths of hedge: many small blades. */
final class PlantShapes {
  /** The side of a patch, metres. */
  static final double PATCH_M = 1.25;

  private PlantShapes() {}

  static Shape grass(Season season, double heightM, int blades, int flowers, long seed) {
    Dice dice = new Dice(seed);
    Mesh mesh = new Mesh();
    for (int i = 0; i < blades; i++) {
      double tall = heightM * dice.between(0.45, 1.25);
      boolean dry = dice.unit() < season.dryShare() * 0.8;
      blade(
          mesh,
          dice,
          dry ? Surface.DRY_GRASS : Surface.GRASS,
          tall,
          0.0045 + 0.012 * heightM,
          0.45);
    }
    for (int i = 0; i < flowers; i++) {
      Vec3 head = root(dice).plus(Vec3.UP.times(heightM * dice.between(0.8, 1.5)));
      diamond(mesh, dice, Surface.FLOWER, head, 0.028, 0.026);
      diamond(mesh, dice, Surface.FLOWER, head, 0.028, 0.026);
    }
    return mesh.freeze();
  }

  static Shape wheat(Season season, long seed) {
    Dice dice = new Dice(seed);
    Mesh mesh = new Mesh();
    switch (season.wheat()) {
      case SHOOTS -> {
        for (int i = 0; i < 420; i++) {
          blade(mesh, dice, Surface.WHEAT, dice.between(0.06, 0.16), 0.008, 0.5);
        }
      }
      case STUBBLE -> {
        for (int i = 0; i < 320; i++) {
          blade(mesh, dice, Surface.WHEAT, dice.between(0.10, 0.20), 0.007, 0.25);
        }
      }
      case TALL -> {
        for (int i = 0; i < 330; i++) {
          double tall = dice.between(0.62, 0.86);
          Vec3 tip = blade(mesh, dice, Surface.WHEAT, tall, 0.008, 0.12);
          diamond(mesh, dice, Surface.WHEAT, tip, 0.10, 0.022);
          diamond(mesh, dice, Surface.WHEAT, tip, 0.10, 0.022);
        }
      }
    }
    return mesh.freeze();
  }

  static Shape reed(long seed) {
    Dice dice = new Dice(seed);
    Mesh mesh = new Mesh();
    for (int i = 0; i < 70; i++) {
      double tall = dice.between(1.1, 1.9);
      Vec3 tip = blade(mesh, dice, Surface.REED, tall, 0.020, 0.10);
      if (dice.unit() < 0.6) {
        for (int k = 0; k < 5; k++) {
          Vec3 at =
              tip.plus(
                  new Vec3(
                      dice.between(-0.03, 0.03),
                      dice.between(-0.03, 0.03),
                      dice.between(-0.14, 0.10)));
          diamond(mesh, dice, Surface.PLUME, at, 0.15, 0.035);
        }
      }
      blade(mesh, dice, Surface.REED, tall * 0.6, 0.022, 0.5);
    }
    return mesh.freeze();
  }

  /** Two metres of hedge, two metres high and 1.4 wide, along its own x. */
  static Shape hedge(double leafShare, long seed) {
    Dice dice = new Dice(seed);
    Mesh mesh = new Mesh();
    mesh.box(Surface.BARK, -1, -0.25, -0.5, 1, 0.25, 1.35);
    for (int i = 0; i < 160; i++) {
      Vec3 from = new Vec3(dice.between(-1, 1), dice.between(-0.3, 0.3), dice.between(0, 1.2));
      Vec3 to =
          from.plus(
              new Vec3(dice.between(-0.3, 0.3), dice.between(-0.6, 0.6), dice.between(0.2, 0.9)));
      Vec3 side = new Vec3(0.008, 0.004, 0);
      mesh.triangle(Surface.BARK, from.plus(side), from.minus(side), to);
    }
    int leaves = (int) (900 + 4600 * leafShare);
    for (int i = 0; i < leaves; i++) {
      double around = dice.between(-1.75, 1.75);
      double depth = 0.75 + 0.27 * Math.sqrt(dice.unit());
      double x = dice.between(-1.05, 1.05);
      double lump = 0.86 + 0.3 * Noise.at(x * 1.3 + seed, around * 1.3, seed);
      double y = 0.72 * Math.sin(around) * depth * lump;
      double z =
          0.95 + (around > -1.57 && around < 1.57 ? 1.0 : 0.9) * Math.cos(around) * depth * lump;
      if (dice.unit() < 0.45) {
        z = dice.between(0.05, 1.2);
        y = (dice.unit() < 0.5 ? -1 : 1) * 0.70 * depth * lump;
      }
      diamond(mesh, dice, Surface.LEAF_BROAD, new Vec3(x, y, z), 0.075, 0.042);
    }
    return mesh.freeze();
  }

  private static Vec3 root(Dice dice) {
    double half = PATCH_M / 2 + 0.05;
    return new Vec3(dice.between(-half, half), dice.between(-half, half), -0.03);
  }

  private static Vec3 blade(
      Mesh mesh, Dice dice, Surface surface, double tall, double width, double lean) {
    Vec3 foot = root(dice);
    double turn = dice.between(0, 2 * Math.PI);
    Vec3 side = new Vec3(Math.cos(turn), Math.sin(turn), 0).times(width / 2);
    double way = dice.between(0, 2 * Math.PI);
    double bend = tall * lean * dice.between(0.3, 1.3);
    Vec3 over = new Vec3(Math.cos(way), Math.sin(way), 0);
    Vec3 middle = foot.plus(over.times(bend * 0.3)).plus(Vec3.UP.times(tall * 0.6));
    Vec3 tip = foot.plus(over.times(bend)).plus(Vec3.UP.times(tall));
    mesh.quad(
        surface,
        foot.minus(side),
        foot.plus(side),
        middle.plus(side.times(0.8)),
        middle.minus(side.times(0.8)));
    mesh.triangle(surface, middle.minus(side.times(0.8)), middle.plus(side.times(0.8)), tip);
    return tip;
  }

  /** A small leaf of any direction about a place. */
  static void diamond(Mesh mesh, Dice dice, Surface surface, Vec3 at, double length, double width) {
    double turn = dice.between(0, 2 * Math.PI);
    double z = dice.between(-0.8, 0.8);
    double level = Math.sqrt(1 - z * z);
    Vec3 along = new Vec3(level * Math.cos(turn), level * Math.sin(turn), z);
    leaf(mesh, dice, surface, at, along, length, width);
  }

  /** A small leaf along a direction. */
  static void leaf(
      Mesh mesh, Dice dice, Surface surface, Vec3 at, Vec3 along, double length, double width) {
    Vec3 right = along.sideways();
    Vec3 other = along.cross(right);
    double roll = dice.between(0, 2 * Math.PI);
    Vec3 across = right.times(Math.cos(roll)).plus(other.times(Math.sin(roll))).times(width / 2);
    double size = dice.between(0.75, 1.25);
    Vec3 reach = along.times(length / 2 * size);
    Vec3 wide = across.times(size);
    mesh.quad(surface, at.minus(reach), at.plus(wide), at.plus(reach), at.minus(wide));
  }
}
