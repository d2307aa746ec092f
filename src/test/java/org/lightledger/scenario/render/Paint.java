package org.lightledger.scenario.render;

/** Gives every surface its colour and small relief. One per thread. */
final class Paint {
  private static final Vec3 BARK = new Vec3(0.13, 0.105, 0.08);

  private final Season season;
  private final GroundPaint ground;
  private final MasonryPaint masonry = new MasonryPaint();
  private final Outfit outfit;

  Paint(Season season, GroundMap map, Outfit outfit) {
    this.season = season;
    this.outfit = outfit;
    ground = new GroundPaint(season, map);
  }

  /** Describes the place that was hit, as seen along a unit direction. */
  void describe(Hit hit, Vec3 direction, Look look) {
    look.through = Vec3.ZERO;
    look.mirror = 0;
    look.sheen = 0;
    look.normal = hit.normal;
    switch (hit.surface) {
      case GROUND -> ground.describe(hit, look);
      case WATER -> water(hit, look);
      case PLASTER -> masonry.plaster(hit, look);
      case STONE -> masonry.rubble(hit, look);
      case ASHLAR -> masonry.ashlar(hit, look);
      case ROOF -> masonry.roof(hit, look);
      case WOOD -> masonry.wood(hit, look);
      case SHUTTER -> look.albedo = shutter(hit.tint);
      case GLASS -> {
        look.albedo = new Vec3(0.02, 0.022, 0.025);
        look.mirror = 0.08;
      }
      case IRON -> look.albedo = new Vec3(0.05, 0.05, 0.055);
      case BARK -> look.albedo = BARK.times(0.7 + 0.6 * grain(hit.own, 9));
      case LEAF_BROAD -> leaf(season.leaf(), hit, look, 0.8);
      case LEAF_POPLAR -> leaf(season.poplar(), hit, look, 0.8);
      case LEAF_WILLOW -> leaf(season.leaf().mix(new Vec3(0.15, 0.18, 0.09), 0.4), hit, look, 0.7);
      case LEAF_EVERGREEN -> leaf(new Vec3(0.055, 0.085, 0.032), hit, look, 0.35);
      case LEAF_FRUIT -> leaf(season.leaf(), hit, look, 0.8);
      case BLOSSOM -> leaf(new Vec3(0.62, 0.50, 0.50), hit, look, 0.6);
      case GRASS -> leaf(season.grass(), hit, look, 0.9);
      case DRY_GRASS -> leaf(new Vec3(0.32, 0.26, 0.13), hit, look, 0.8);
      case WHEAT -> leaf(season.wheatColour(), hit, look, 0.8);
      case REED -> leaf(season.grass().mix(new Vec3(0.30, 0.25, 0.12), 0.55), hit, look, 0.8);
      case PLUME -> leaf(new Vec3(0.46, 0.36, 0.24), hit, look, 0.9);
      case FLOWER -> leaf(flower(hit), hit, look, 0.5);
      case SKIN -> figure(new Vec3(0.50, 0.33, 0.24), 0.06, 0.10, look);
      case HAIR -> {
        figure(outfit.hair(), 0.0, 0.55, look);
        look.through = outfit.hair().times(0.7);
      }
      case CLOTH -> figure(outfit.cloth(), outfit.sheer(), 0.22, look);
      case DARK_CLOTH -> figure(new Vec3(0.045, 0.045, 0.055), 0, 0.2, look);
      case PLAIN -> look.albedo = Vec3.grey(0.5);
    }
    if (look.normal.dot(direction) > 0) {
      look.normal = look.normal.times(-1);
    }
  }

  private static void figure(Vec3 colour, double sheer, double sheen, Look look) {
    look.albedo = colour.times(1 - sheer);
    look.through = colour.times(sheer);
    look.sheen = sheen;
  }

  private static void leaf(Vec3 colour, Hit hit, Look look, double sheer) {
    double vary = 0.75 + 0.5 * grain(hit.own, 1.7);
    double own = 0.85 + 0.3 * hit.tint;
    Vec3 c = new Vec3(colour.x() * vary * own, colour.y() * vary, colour.z() * vary);
    look.albedo = c.times(0.85);
    look.through = new Vec3(c.x() * 1.05, c.y() * 1.1, c.z() * 0.6).times(sheer);
  }

  private static double grain(Vec3 p, double frequency) {
    return Noise.at(p.x() * frequency, p.y() * frequency, p.z() * frequency);
  }

  private static Vec3 flower(Hit hit) {
    double pick = Noise.hash((int) (hit.own.x() * 40), (int) (hit.own.y() * 40), 3);
    if (pick < 0.45) {
      return new Vec3(0.7, 0.68, 0.6);
    }
    return pick < 0.75 ? new Vec3(0.7, 0.5, 0.05) : new Vec3(0.55, 0.07, 0.05);
  }

  private static Vec3 shutter(double tint) {
    if (tint < 0.35) {
      return new Vec3(0.07, 0.12, 0.10);
    }
    return tint < 0.7 ? new Vec3(0.16, 0.085, 0.05) : new Vec3(0.09, 0.14, 0.19);
  }

  private static void water(Hit hit, Look look) {
    double x = hit.place.x();
    double y = hit.place.y();
    double fade = 1 / (1 + hit.distance / 70);
    double a =
        0.10 * (Noise.at(x * 0.7, y * 0.7, 5) - 0.5) + 0.05 * (Noise.at(x * 2.3, y * 2.3, 9) - 0.5);
    double b =
        0.10 * (Noise.at(x * 0.7, y * 0.7, 31) - 0.5)
            + 0.05 * (Noise.at(x * 2.3, y * 2.3, 37) - 0.5);
    look.normal = new Vec3(a * fade, b * fade, 1).unit();
    look.albedo = new Vec3(0.022, 0.034, 0.026);
    look.mirror = 0.02;
  }
}
