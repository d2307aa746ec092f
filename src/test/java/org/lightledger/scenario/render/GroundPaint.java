package org.lightledger.scenario.render;

/** The colour and relief of the ground. One per thread. */
final class GroundPaint {
  private static final Vec3 SOIL = new Vec3(0.20, 0.14, 0.09);
  private static final Vec3 DRY = new Vec3(0.34, 0.28, 0.15);

  private final Season season;
  private final GroundMap map;
  private final Cells cells = new Cells();

  GroundPaint(Season season, GroundMap map) {
    this.season = season;
    this.map = map;
  }

  void describe(Hit hit, Look look) {
    double x = hit.place.x();
    double y = hit.place.y();
    double wobbleX = 0.8 * (Noise.at(x * 1.1, y * 1.1, 3) - 0.5);
    double wobbleY = 0.8 * (Noise.at(x * 1.1, y * 1.1, 8) - 0.5);
    GroundMap.Ground ground = map.at(x, y);
    if (ground != GroundMap.Ground.PAVED) {
      ground = map.at(x + wobbleX, y + wobbleY);
    }
    double near = 1 / (1 + hit.distance / 25);
    switch (ground) {
      case WILD -> wild(x, y, hit, near, look);
      case MEADOW, ORCHARD -> grass(x, y, hit, near, look, 0.9);
      case LAWN -> grass(x, y, hit, near, look, 0.55);
      case WHEAT -> wheat(x, y, hit, near, look);
      case PAVED -> cobbles(x, y, hit, near, look);
      case GRAVEL -> stones(x, y, hit, near, look, new Vec3(0.36, 0.31, 0.24), 22);
      case TRACK -> track(x, y, hit, near, look);
      case EARTH -> stones(x, y, hit, near, look, new Vec3(0.30, 0.235, 0.16), 16);
      case PEBBLES -> stones(x, y, hit, near, look, new Vec3(0.33, 0.31, 0.28), 17);
      case BANK, REEDS -> {
        grass(x, y, hit, near, look, 1.0);
        look.albedo = look.albedo.mix(SOIL, 0.45);
      }
    }
  }

  private void wild(double x, double y, Hit hit, double near, Look look) {
    double away = Math.hypot(x, y);
    grass(x, y, hit, near, look, 1.0);
    double patchX = 0.82 * x + 0.57 * y + 40 * Noise.at(x / 200, y / 200, 1);
    double patchY = -0.57 * x + 0.82 * y + 40 * Noise.at(x / 200, y / 200, 2);
    double field = Noise.hash((int) Math.floor(patchX / 170), (int) Math.floor(patchY / 105), 12);
    double settled = Sky.smoothstep(350, 700, away) * (1 - Sky.smoothstep(3000, 5000, away));
    Vec3 crop = field < 0.3 ? season.wheatColour() : field < 0.5 ? SOIL : look.albedo;
    look.albedo = look.albedo.mix(crop.times(0.85), 0.7 * settled);
    double wood =
        Sky.smoothstep(0.50, 0.60, Noise.layers(x / 330 + 7, y / 330, 4))
            * Sky.smoothstep(900, 1700, away);
    double heath = 0.35 * Sky.smoothstep(2500, 6000, away);
    double clump = 0.55 + 0.9 * Noise.layers(x / 14, y / 14, 3);
    look.albedo =
        look.albedo.mix(new Vec3(0.045, 0.062, 0.028).times(clump), Math.max(wood * 0.9, heath));
  }

  private void grass(double x, double y, Hit hit, double near, Look look, double rough) {
    double broad = Noise.layers(x / 9, y / 9, 3);
    double fine = Noise.layers(x * 5, y * 5, 2);
    Vec3 colour = season.grass().times(0.58 + 0.6 * broad);
    double dry = Math.min(1, season.dryShare() * (0.25 + 0.9 * Noise.layers(x / 4 + 3, y / 4, 2)));
    colour = colour.mix(DRY, dry * 0.75);
    look.albedo = colour.times(1 + 0.7 * near * (fine - 0.5));
    double tilt = 0.9 * rough * near;
    look.normal =
        hit.normal
            .plus(
                new Vec3(
                    tilt * (Noise.at(x * 7, y * 7, 2) - 0.5),
                    tilt * (Noise.at(x * 7, y * 7, 6) - 0.5),
                    0))
            .unit();
  }

  private void wheat(double x, double y, Hit hit, double near, Look look) {
    grass(x, y, hit, near, look, 1.0);
    double across = 0.88 * x - 0.47 * y;
    double row = 0.5 + 0.5 * Math.sin(across * 2 * Math.PI / 0.6);
    Vec3 crop = season.wheatColour().times(0.75 + 0.3 * Noise.layers(x / 6, y / 6, 2));
    double bare = season.wheat() == Season.Wheat.TALL ? 0.15 : 0.45;
    look.albedo = crop.mix(SOIL, bare * (0.4 + 0.6 * row * near * 3 / (1 + near * 2)));
  }

  private void track(double x, double y, Hit hit, double near, Look look) {
    stones(x, y, hit, near, look, new Vec3(0.30, 0.235, 0.155), 15);
    Vec3 earth = look.albedo;
    Vec3 relief = look.normal;
    grass(x, y, hit, near, look, 0.9);
    double tuft = Sky.smoothstep(0.50, 0.62, Noise.layers(x * 0.9, y * 0.9, 3));
    look.albedo = earth.mix(look.albedo, tuft * 0.85);
    look.normal = relief.mix(look.normal, tuft).unit();
  }

  private void cobbles(double x, double y, Hit hit, double near, Look look) {
    double scale = 8.0;
    cells.at(x * scale, y * scale);
    double joint = 1 - Sky.smoothstep(0.04, 0.16, cells.margin);
    double tone = 0.75 + 0.45 * cells.name;
    Vec3 stone =
        new Vec3(0.27, 0.245, 0.21).times(tone * (0.85 + 0.3 * Noise.layers(x / 3, y / 3, 2)));
    double h = dome();
    cells.at((x + 0.012) * scale, y * scale);
    double hx = dome();
    cells.at(x * scale, (y + 0.012) * scale);
    double hy = dome();
    double slope = 0.016 / 0.012 * Math.min(1, near * 2.0);
    look.normal = hit.normal.plus(new Vec3(-(hx - h) * slope, -(hy - h) * slope, 0)).unit();
    look.albedo = stone.mix(new Vec3(0.12, 0.10, 0.075), 0.75 * joint * Math.min(1, near * 2));
  }

  private double dome() {
    return Sky.smoothstep(0, 0.4, cells.margin);
  }

  private void stones(
      double x, double y, Hit hit, double near, Look look, Vec3 base, double scale) {
    cells.at(x * scale, y * scale);
    double tone = 0.65 + 0.7 * cells.name;
    double broad = 0.8 + 0.4 * Noise.layers(x / 2.2, y / 2.2, 3);
    double share = Math.min(1, near * 1.6);
    look.albedo = base.times(broad * (1 + (tone - 1) * share));
    double tilt = 0.55 * share;
    look.normal =
        hit.normal
            .plus(
                new Vec3(
                    tilt * (Noise.at(x * scale, y * scale, 2) - 0.5),
                    tilt * (Noise.at(x * scale, y * scale, 6) - 0.5),
                    0))
            .unit();
  }
}
