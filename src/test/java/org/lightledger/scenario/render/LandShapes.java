package org.lightledger.scenario.render;

import java.util.ArrayList;
import java.util.List;
import org.lightledger.scenario.Point;
import org.lightledger.scenario.River;
import org.lightledger.scenario.Terrain;

/** The ground in three rings, fine to coarse, and the river's water. */
final class LandShapes {
  private static final double[][] RINGS = {{4, 880, 0}, {24, 2880, 856}, {150, 14_400, 2700}};

  private LandShapes() {}

  static List<Shape> ground(Terrain terrain) {
    List<Shape> rings = new ArrayList<>();
    for (double[] ring : RINGS) {
      rings.add(ring(terrain, ring[0], ring[1], ring[2]));
    }
    return rings;
  }

  private static Shape ring(Terrain terrain, double step, double reach, double hole) {
    int n = (int) Math.round(2 * reach / step) + 1;
    double[] up = new double[n * n];
    java.util.stream.IntStream.range(0, n)
        .parallel()
        .forEach(
            j -> {
              for (int i = 0; i < n; i++) {
                up[j * n + i] = terrain.up(new Point(i * step - reach, j * step - reach));
              }
            });
    Mesh mesh = new Mesh();
    for (int j = 0; j < n - 1; j++) {
      for (int i = 0; i < n - 1; i++) {
        double x = i * step - reach;
        double y = j * step - reach;
        if (Math.abs(x + step / 2) < hole && Math.abs(y + step / 2) < hole) {
          continue;
        }
        corner(mesh, up, n, i, j, step, reach);
      }
    }
    return mesh.freeze();
  }

  private static void corner(
      Mesh mesh, double[] up, int n, int i, int j, double step, double reach) {
    Vec3[] p = new Vec3[4];
    Vec3[] normal = new Vec3[4];
    for (int k = 0; k < 4; k++) {
      int a = i + (k & 1);
      int b = j + (k >> 1);
      p[k] = new Vec3(a * step - reach, b * step - reach, up[b * n + a]);
      int a0 = Math.max(0, a - 1);
      int a1 = Math.min(n - 1, a + 1);
      int b0 = Math.max(0, b - 1);
      int b1 = Math.min(n - 1, b + 1);
      normal[k] =
          new Vec3(
                  -(up[b * n + a1] - up[b * n + a0]) / ((a1 - a0) * step),
                  -(up[b1 * n + a] - up[b0 * n + a]) / ((b1 - b0) * step),
                  1)
              .unit();
    }
    mesh.smoothTriangle(Surface.GROUND, p[0], p[1], p[3], normal[0], normal[1], normal[3]);
    mesh.smoothTriangle(Surface.GROUND, p[0], p[3], p[2], normal[0], normal[3], normal[2]);
  }

  static Shape water(River river) {
    Mesh mesh = new Mesh();
    List<Point> course = river.course();
    double half = river.widthM() / 2 + 1.5;
    Point left = null;
    Point right = null;
    for (int i = 0; i < course.size(); i++) {
      Point before = course.get(Math.max(0, i - 1));
      Point after = course.get(Math.min(course.size() - 1, i + 1));
      double bearing = before.bearingTo(after);
      Point l = course.get(i).along(bearing - 90, half);
      Point r = course.get(i).along(bearing + 90, half);
      if (left != null && right != null) {
        mesh.quad(Surface.WATER, flat(left), flat(right), flat(r), flat(l));
      }
      left = l;
      right = r;
    }
    return mesh.freeze();
  }

  private static Vec3 flat(Point p) {
    return new Vec3(p.east(), p.north(), 0);
  }
}
