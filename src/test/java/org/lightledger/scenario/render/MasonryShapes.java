package org.lightledger.scenario.render;

import java.util.List;
import org.lightledger.scenario.Arches;
import org.lightledger.scenario.Barrier;
import org.lightledger.scenario.Lines;
import org.lightledger.scenario.Point;
import org.lightledger.scenario.Terrain;

/** Bridges, arcades and walls, in the scenario's frame or in their own. */
final class MasonryShapes {
  private static final double STEP_M = 0.16;

  private MasonryShapes() {}

  /**
   * A pierced wall in its own frame: x from its first end to the other, y across, z from its foot.
   */
  static Shape arches(Arches arches) {
    Mesh mesh = new Mesh();
    double length = arches.from().to(arches.to());
    int n = (int) Math.ceil(length / STEP_M);
    for (int i = 0; i < n; i++) {
      strip(mesh, arches, length, length * i / n, length * (i + 1) / n);
    }
    return mesh.freeze();
  }

  private static void strip(Mesh mesh, Arches arches, double length, double x0, double x1) {
    double y = arches.thicknessM() / 2;
    double z0 = bottom(arches, length, x0 + 1e-6);
    double z1 = bottom(arches, length, x1 - 1e-6);
    double d0 = deck(arches, length, x0);
    double d1 = deck(arches, length, x1);
    double parapet = arches.parapetM();
    double in = parapet > 0 ? y - 0.38 : 0;
    for (int s = -1; s <= 1; s += 2) {
      across(mesh, x0, x1, s * y, z0, z1, s * y, d0 + parapet, d1 + parapet);
      if (parapet > 0) {
        double out = y + 0.07;
        across(mesh, x0, x1, s * in, d0, d1, s * in, d0 + parapet, d1 + parapet);
        across(
            mesh,
            x0,
            x1,
            s * out,
            d0 + parapet,
            d1 + parapet,
            s * out,
            d0 + parapet + 0.13,
            d1 + parapet + 0.13);
        across(
            mesh,
            x0,
            x1,
            s * in,
            d0 + parapet + 0.13,
            d1 + parapet + 0.13,
            s * out,
            d0 + parapet + 0.13,
            d1 + parapet + 0.13);
        across(
            mesh, x0, x1, s * y, d0 + parapet, d1 + parapet, s * out, d0 + parapet, d1 + parapet);
        across(mesh, x0, x1, s * out, d0 - 0.25, d1 - 0.25, s * out, d0 - 0.05, d1 - 0.05);
        across(mesh, x0, x1, s * y, d0 - 0.05, d1 - 0.05, s * out, d0 - 0.05, d1 - 0.05);
      }
    }
    across(mesh, x0, x1, -y, d0, d1, y, d0, d1);
    across(mesh, x0, x1, -y, z0, z1, y, z0, z1);
    double before = bottom(arches, length, x0 - 1e-6);
    if (Math.abs(before - z0) > 0.05) {
      mesh.quad(
          Surface.ASHLAR,
          new Vec3(x0, -y, before),
          new Vec3(x0, y, before),
          new Vec3(x0, y, z0),
          new Vec3(x0, -y, z0));
    }
  }

  /** A strip between two lines that both run from x0 to x1. */
  private static void across(
      Mesh mesh,
      double x0,
      double x1,
      double ya,
      double za0,
      double za1,
      double yb,
      double zb0,
      double zb1) {
    mesh.quad(
        Surface.ASHLAR,
        new Vec3(x0, ya, za0),
        new Vec3(x1, ya, za1),
        new Vec3(x1, yb, zb1),
        new Vec3(x0, yb, zb0));
  }

  private static double deck(Arches arches, double length, double x) {
    double u = 2 * x / length - 1;
    return arches.topUp() - arches.footUp() - arches.humpM() * u * u;
  }

  private static double bottom(Arches arches, double length, double x) {
    double bay = (length - arches.pierM()) / arches.arches();
    double half = (bay - arches.pierM()) / 2;
    double in = (x - arches.pierM()) % bay;
    if (x < arches.pierM() || x > length - arches.pierM() || in >= 2 * half) {
      return -0.5;
    }
    double u = in / half - 1;
    return arches.springM() + arches.riseM() * Math.sqrt(Math.max(0, 1 - u * u));
  }

  /** A stone wall in the scenario's frame, its top following the ground. */
  static Shape wall(Barrier barrier, Terrain terrain) {
    Mesh mesh = new Mesh();
    List<Point> line = barrier.line();
    double half = barrier.widthM() / 2;
    for (int i = 1; i < line.size(); i++) {
      double bearing = line.get(i - 1).bearingTo(line.get(i));
      List<Point> piece =
          List.of(line.get(i - 1).along(bearing, -half), line.get(i).along(bearing, half));
      double step = 1.5;
      Lines.walk(
          piece,
          step,
          (at, b) -> {
            Point next = at.along(b, Math.min(step, at.to(piece.get(1))));
            prism(mesh, barrier, terrain, at, next, b, half);
          });
    }
    return mesh.freeze();
  }

  private static void prism(
      Mesh mesh, Barrier barrier, Terrain terrain, Point a, Point b, double bearing, double half) {
    Point[] p = {
      a.along(bearing - 90, half), a.along(bearing + 90, half),
      b.along(bearing + 90, half), b.along(bearing - 90, half)
    };
    double wobble = 0.04 * (Noise.at(a.east(), a.north(), 0) - 0.5);
    double topA = terrain.up(a) + barrier.heightM() + wobble;
    double topB = terrain.up(b) + barrier.heightM() + wobble;
    double[] tops = {topA, topA, topB, topB};
    Vec3[] low = new Vec3[4];
    Vec3[] high = new Vec3[4];
    for (int i = 0; i < 4; i++) {
      low[i] = new Vec3(p[i].east(), p[i].north(), tops[i] - barrier.heightM() - 1);
      high[i] = new Vec3(p[i].east(), p[i].north(), tops[i]);
    }
    for (int i = 0; i < 4; i++) {
      int j = (i + 1) % 4;
      mesh.quad(Surface.STONE, low[i], low[j], high[j], high[i]);
    }
    mesh.quad(Surface.STONE, high[0], high[1], high[2], high[3]);
  }
}
