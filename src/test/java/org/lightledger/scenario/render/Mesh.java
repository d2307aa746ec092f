package org.lightledger.scenario.render;

import java.util.Arrays;

/**
 * Triangles with a surface each, and smooth normals where the shape is round. Build, then freeze.
 */
final class Mesh {
  private float[] corners = new float[900];
  private float[] normals = new float[900];
  private byte[] surfaces = new byte[100];
  private int size;
  private boolean smooth;

  void triangle(Surface surface, Vec3 a, Vec3 b, Vec3 c) {
    Vec3 flat = b.minus(a).cross(c.minus(a));
    double length = flat.length();
    if (length < 1e-12) {
      return;
    }
    Vec3 n = flat.times(1 / length);
    add(surface, a, b, c, n, n, n);
  }

  void smoothTriangle(Surface surface, Vec3 a, Vec3 b, Vec3 c, Vec3 na, Vec3 nb, Vec3 nc) {
    smooth = true;
    add(surface, a, b, c, na, nb, nc);
  }

  private void add(Surface surface, Vec3 a, Vec3 b, Vec3 c, Vec3 na, Vec3 nb, Vec3 nc) {
    if (9 * size == corners.length) {
      corners = Arrays.copyOf(corners, 2 * corners.length);
      normals = Arrays.copyOf(normals, 2 * normals.length);
      surfaces = Arrays.copyOf(surfaces, 2 * surfaces.length);
    }
    put(corners, 9 * size, a, b, c);
    put(normals, 9 * size, na, nb, nc);
    surfaces[size++] = (byte) surface.ordinal();
  }

  private static void put(float[] target, int at, Vec3 a, Vec3 b, Vec3 c) {
    target[at] = (float) a.x();
    target[at + 1] = (float) a.y();
    target[at + 2] = (float) a.z();
    target[at + 3] = (float) b.x();
    target[at + 4] = (float) b.y();
    target[at + 5] = (float) b.z();
    target[at + 6] = (float) c.x();
    target[at + 7] = (float) c.y();
    target[at + 8] = (float) c.z();
  }

  void quad(Surface surface, Vec3 a, Vec3 b, Vec3 c, Vec3 d) {
    triangle(surface, a, b, c);
    triangle(surface, a, c, d);
  }

  /** A box between two corners, without its floor. */
  void box(Surface surface, double x0, double y0, double z0, double x1, double y1, double z1) {
    Vec3 a = new Vec3(x0, y0, z0);
    Vec3 b = new Vec3(x1, y0, z0);
    Vec3 c = new Vec3(x1, y1, z0);
    Vec3 d = new Vec3(x0, y1, z0);
    Vec3 e = new Vec3(x0, y0, z1);
    Vec3 f = new Vec3(x1, y0, z1);
    Vec3 g = new Vec3(x1, y1, z1);
    Vec3 h = new Vec3(x0, y1, z1);
    quad(surface, a, b, f, e);
    quad(surface, b, c, g, f);
    quad(surface, c, d, h, g);
    quad(surface, d, a, e, h);
    quad(surface, e, f, g, h);
    quad(surface, d, c, b, a);
  }

  Shape freeze() {
    return new Shape(
        Arrays.copyOf(corners, 9 * size),
        smooth ? Arrays.copyOf(normals, 9 * size) : new float[0],
        Arrays.copyOf(surfaces, size));
  }
}
