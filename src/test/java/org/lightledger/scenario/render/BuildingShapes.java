package org.lightledger.scenario.render;

import org.lightledger.scenario.Building;

/** Buildings as boxes with gabled roofs, windows, doors and shutters, in their own frames. */
final class BuildingShapes {
  private static final double ROOTS_M = -3;

  private final Mesh mesh = new Mesh();
  private final Building building;
  private final Dice dice;
  private final double l;
  private final double w;

  private BuildingShapes(Building building) {
    this.building = building;
    dice = new Dice(building.name().hashCode());
    l = building.lengthM() / 2;
    w = building.widthM() / 2;
  }

  static Shape shape(Building building) {
    BuildingShapes maker = new BuildingShapes(building);
    maker.build();
    return maker.mesh.freeze();
  }

  private void build() {
    switch (building.kind()) {
      case HOUSE -> house(Surface.PLASTER);
      case STONE_HOUSE -> house(Surface.STONE);
      case MILL -> {
        house(Surface.STONE);
        mesh.box(Surface.WOOD, -2.2, -w - 0.75, 0, -0.6, -w - 0.35, 0.46);
      }
      case CHURCH -> church();
      case TOWER -> tower();
      case BARN -> barn();
      case ARCADED -> arcaded();
      case SHED -> shed();
    }
  }

  private void walls(Surface surface, double from, double to) {
    mesh.box(surface, -l, -w, from, l, w, to);
  }

  private void gable(Surface wall, double overhang) {
    double e = building.eavesM();
    double r = building.ridgeM();
    double slope = (r - e) / w;
    for (int s = -1; s <= 1; s += 2) {
      mesh.triangle(wall, new Vec3(s * l, -w, e), new Vec3(s * l, w, e), new Vec3(s * l, 0, r));
    }
    double x = l + overhang;
    double y = w + overhang;
    double low = e - slope * overhang + 0.12;
    double high = r + 0.12;
    for (int s = -1; s <= 1; s += 2) {
      Vec3 a = new Vec3(-x, s * y, low);
      Vec3 b = new Vec3(x, s * y, low);
      Vec3 c = new Vec3(x, 0, high);
      Vec3 d = new Vec3(-x, 0, high);
      if (s < 0) {
        mesh.quad(Surface.ROOF, a, b, c, d);
      } else {
        mesh.quad(Surface.ROOF, d, c, b, a);
      }
      Vec3 down = new Vec3(0, 0, -0.13);
      mesh.quad(Surface.WOOD, a.plus(down), b.plus(down), c.plus(down), d.plus(down));
      mesh.quad(Surface.WOOD, a, b, b.plus(down), a.plus(down));
      mesh.quad(Surface.WOOD, a, d, d.plus(down), a.plus(down));
      mesh.quad(Surface.WOOD, b, c, c.plus(down), b.plus(down));
    }
  }

  private void house(Surface wall) {
    walls(wall, ROOTS_M, building.eavesM());
    gable(wall, 0.45);
    for (int s = -1; s <= 1; s += 2) {
      openings(s, true, l);
      openings(s, false, w);
    }
    double x = l * dice.between(-0.5, 0.5);
    double top = building.ridgeM() + 0.8;
    mesh.box(Surface.PLASTER, x, 0.5, building.eavesM(), x + 0.6, 1.2, top);
  }

  private void openings(int side, boolean longSide, double half) {
    int columns = (int) (2 * half / 3.1);
    int floors = (int) ((building.eavesM() - 0.6) / 2.75);
    int door = longSide && columns > 0 ? dice.below(columns) : -1;
    for (int floor = 0; floor < floors; floor++) {
      for (int c = 0; c < columns; c++) {
        double at = -half + (c + 0.5) * 2 * half / columns;
        if (floor == 0 && c == door) {
          panel(side, longSide, at, 1.1, 0, 2.15, Surface.WOOD, 0.03);
          frame(side, longSide, at, 1.1, 0, 2.15);
        } else if (longSide ? dice.unit() < 0.85 : dice.unit() < 0.45) {
          window(side, longSide, at, 0.95 + 2.75 * floor);
        }
      }
    }
  }

  private void window(int side, boolean longSide, double at, double sill) {
    double width = 0.9;
    double height = 1.25;
    panel(side, longSide, at, width, sill, sill + height, Surface.GLASS, 0.015);
    panel(side, longSide, at, 0.05, sill, sill + height, Surface.WOOD, 0.03);
    panel(side, longSide, at, width, sill + 0.60, sill + 0.64, Surface.WOOD, 0.03);
    frame(side, longSide, at, width, sill, sill + height);
    panel(side, longSide, at, width + 0.34, sill - 0.10, sill, Surface.ASHLAR, 0.15);
    if (dice.unit() < 0.6) {
      double away = width / 2 + 0.30;
      panel(side, longSide, at - away, 0.46, sill, sill + height, Surface.SHUTTER, 0.08);
      panel(side, longSide, at + away, 0.46, sill, sill + height, Surface.SHUTTER, 0.08);
    }
  }

  private void frame(int side, boolean longSide, double at, double width, double from, double to) {
    double edge = width / 2 + 0.06;
    panel(side, longSide, at - edge, 0.13, from, to, Surface.ASHLAR, 0.07);
    panel(side, longSide, at + edge, 0.13, from, to, Surface.ASHLAR, 0.07);
    panel(side, longSide, at, width + 0.42, to, to + 0.20, Surface.ASHLAR, 0.09);
  }

  /** A thin box on a wall. */
  private void panel(
      int side,
      boolean longSide,
      double at,
      double width,
      double from,
      double to,
      Surface surface,
      double depth) {
    double a = at - width / 2;
    double b = at + width / 2;
    if (longSide) {
      double y = side * w;
      double out = side * (w + depth);
      mesh.box(surface, a, Math.min(y, out), from, b, Math.max(y, out), to);
    } else {
      double x = side * l;
      double out = side * (l + depth);
      mesh.box(surface, Math.min(x, out), a, from, Math.max(x, out), b, to);
    }
  }

  private void church() {
    walls(Surface.PLASTER, ROOTS_M, building.eavesM());
    gable(Surface.PLASTER, 0.35);
    for (int s = -1; s <= 1; s += 2) {
      for (double x = -l + 2.2; x < l - 1; x += 4.2) {
        panel(s, true, x, 0.8, 2.4, building.eavesM() - 1.0, Surface.GLASS, 0.02);
        frame(s, true, x, 0.8, 2.4, building.eavesM() - 1.0);
        mesh.box(
            Surface.ASHLAR,
            x + 1.9,
            s > 0 ? w : -w - 0.5,
            ROOTS_M,
            x + 2.5,
            s > 0 ? w + 0.5 : -w,
            4.0);
      }
    }
    double front = -l;
    panel(-1, false, 0, 1.7, 0.45, 3.0, Surface.WOOD, 0.05);
    frame(-1, false, 0, 1.7, 0.45, 3.0);
    panel(-1, false, 0, 0.9, 4.1, 5.0, Surface.GLASS, 0.03);
    frame(-1, false, 0, 0.9, 4.1, 5.0);
    for (int s = -1; s <= 1; s += 2) {
      mesh.box(
          Surface.ASHLAR,
          front - 0.14,
          s * w - 0.4,
          ROOTS_M,
          front + 0.4,
          s * w + 0.4,
          building.eavesM() + 0.2);
    }
    for (int i = 0; i < 3; i++) {
      double reach = 0.5 + 0.42 * (3 - i);
      mesh.box(
          Surface.ASHLAR,
          front - reach,
          -2.3 - 0.3 * (2 - i),
          ROOTS_M,
          front,
          2.3 + 0.3 * (2 - i),
          0.15 * (i + 1));
    }
    bellGable(front);
  }

  private void bellGable(double x) {
    double base = building.ridgeM() - 0.5;
    double top = building.ridgeM() + 1.9;
    mesh.box(Surface.PLASTER, x - 0.1, -1.2, building.eavesM(), x + 0.5, 1.2, base + 0.4);
    mesh.box(Surface.PLASTER, x - 0.1, -1.2, base + 0.4, x + 0.5, -0.5, top);
    mesh.box(Surface.PLASTER, x - 0.1, 0.5, base + 0.4, x + 0.5, 1.2, top);
    mesh.box(Surface.ASHLAR, x - 0.2, -1.35, top, x + 0.6, 1.35, top + 0.22);
    mesh.box(Surface.IRON, x + 0.05, -0.28, base + 0.95, x + 0.35, 0.28, base + 1.6);
    mesh.box(Surface.IRON, x + 0.16, -0.05, top + 0.22, x + 0.24, 0.05, top + 1.3);
    mesh.box(Surface.IRON, x + 0.16, -0.3, top + 0.8, x + 0.24, 0.3, top + 0.9);
  }

  private void tower() {
    double e = building.eavesM();
    walls(Surface.STONE, ROOTS_M, e);
    mesh.box(Surface.ASHLAR, -l - 0.2, -w - 0.2, 13.2, l + 0.2, w + 0.2, 13.6);
    mesh.box(Surface.ASHLAR, -l - 0.3, -w - 0.3, e - 0.3, l + 0.3, w + 0.3, e + 0.1);
    for (int s = -1; s <= 1; s += 2) {
      for (int k = -1; k <= 1; k += 2) {
        panel(s, true, k * 1.3, 1.1, 14.6, 17.4, Surface.GLASS, 0.03);
        frame(s, true, k * 1.3, 1.1, 14.6, 17.4);
        panel(s, false, k * 1.3, 1.1, 14.6, 17.4, Surface.GLASS, 0.03);
        frame(s, false, k * 1.3, 1.1, 14.6, 17.4);
      }
    }
    Vec3 tip = new Vec3(0, 0, building.ridgeM());
    double o = l + 0.4;
    Vec3[] c = {
      new Vec3(-o, -o, e + 0.1), new Vec3(o, -o, e + 0.1),
      new Vec3(o, o, e + 0.1), new Vec3(-o, o, e + 0.1)
    };
    for (int i = 0; i < 4; i++) {
      mesh.triangle(Surface.ROOF, c[i], c[(i + 1) % 4], tip);
    }
    mesh.box(
        Surface.IRON, -0.05, -0.05, building.ridgeM() - 0.2, 0.05, 0.05, building.ridgeM() + 1.4);
  }

  private void barn() {
    walls(Surface.STONE, ROOTS_M, building.eavesM());
    gable(Surface.WOOD, 0.5);
    panel(1, true, 0.8, 3.6, 0, 3.5, Surface.WOOD, 0.07);
    panel(1, true, 0.8, 0.06, 0, 3.5, Surface.IRON, 0.08);
    for (double z : new double[] {0.5, 2.7}) {
      panel(1, true, 0.8, 3.6, z, z + 0.18, Surface.WOOD, 0.11);
    }
    frame(1, true, 0.8, 3.6, 0, 3.5);
    panel(1, true, -5.2, 0.7, 2.0, 2.8, Surface.IRON, 0.01);
    frame(1, true, -5.2, 0.7, 2.0, 2.8);
    openings(-1, true, l);
  }

  private void arcaded() {
    double floor = 4.3;
    mesh.box(Surface.PLASTER, -l, -w, ROOTS_M, l, w, floor);
    mesh.box(Surface.ASHLAR, -l, w, floor - 0.25, l, w + 2.7, floor);
    mesh.box(Surface.PLASTER, -l, -w, floor, l, w, building.eavesM());
    mesh.box(Surface.PLASTER, -l, w, floor, l, w + 2.45, building.eavesM() - 0.3);
    mesh.box(Surface.ASHLAR, -l, w, ROOTS_M, l, w + 2.7, 0.05);
    for (double x = -l + 1.7; x < l - 1; x += 4.0) {
      panel(1, true, x, 1.2, 0.05, 2.5, Surface.WOOD, 0.05);
      frame(1, true, x, 1.2, 0.05, 2.5);
    }
    gable(Surface.PLASTER, 0.5);
    double e = building.eavesM();
    mesh.quad(
        Surface.ROOF,
        new Vec3(-l - 0.5, w + 3.2, e - 0.45),
        new Vec3(-l - 0.5, w - 0.2, e + 0.25),
        new Vec3(l + 0.5, w - 0.2, e + 0.25),
        new Vec3(l + 0.5, w + 3.2, e - 0.45));
  }

  private void shed() {
    gable(Surface.WOOD, 0.5);
    for (double x = -l + 0.15; x <= l; x += (2 * l - 0.3) / 3) {
      for (int s = -1; s <= 1; s += 2) {
        mesh.box(
            Surface.WOOD,
            x - 0.11,
            s * (w - 0.15) - 0.11,
            ROOTS_M,
            x + 0.11,
            s * (w - 0.15) + 0.11,
            building.eavesM());
      }
    }
    for (int s = -1; s <= 1; s += 2) {
      double y = s * (w - 0.15);
      mesh.box(Surface.WOOD, -l, y - 0.1, building.eavesM() - 0.2, l, y + 0.1, building.eavesM());
    }
    mesh.box(Surface.ASHLAR, -l + 0.9, -w + 1.2, ROOTS_M, l - 0.9, -w + 1.5, 0.6);
    mesh.box(Surface.ASHLAR, -l + 0.9, w - 1.5, ROOTS_M, l - 0.9, w - 1.2, 0.6);
    mesh.box(Surface.ASHLAR, -l + 0.6, -w + 1.2, ROOTS_M, -l + 0.9, w - 1.2, 0.6);
    mesh.box(Surface.ASHLAR, l - 0.9, -w + 1.2, ROOTS_M, l - 0.6, w - 1.2, 0.6);
    mesh.box(Surface.WATER, -l + 0.9, -w + 1.5, ROOTS_M, l - 0.9, w - 1.5, 0.42);
    mesh.box(Surface.ASHLAR, -l - 0.4, -w - 0.4, ROOTS_M, l + 0.4, w + 0.4, 0.04);
  }
}
