package org.lightledger.scenario.render;

import java.util.ArrayList;
import java.util.List;

/** Turns a distance field into triangles (Gibson 1998, naive surface nets). */
final class SurfaceNets {
  /** A signed distance field with a surface name for every place, metres. */
  interface Field {
    double distance(double x, double y, double z);

    Surface surface(double x, double y, double z);
  }

  private SurfaceNets() {}

  static void mesh(Mesh mesh, Field field, Vec3 low, Vec3 high, double cell) {
    int nx = (int) Math.ceil((high.x() - low.x()) / cell) + 1;
    int ny = (int) Math.ceil((high.y() - low.y()) / cell) + 1;
    int nz = (int) Math.ceil((high.z() - low.z()) / cell) + 1;
    float[] d = new float[nx * ny * nz];
    for (int k = 0; k < nz; k++) {
      for (int j = 0; j < ny; j++) {
        for (int i = 0; i < nx; i++) {
          d[(k * ny + j) * nx + i] =
              (float) field.distance(low.x() + i * cell, low.y() + j * cell, low.z() + k * cell);
        }
      }
    }
    int[] vertex = new int[nx * ny * nz];
    List<Vec3> places = new ArrayList<>();
    int[] step = {1, nx, nx * ny};
    for (int k = 0; k < nz - 1; k++) {
      for (int j = 0; j < ny - 1; j++) {
        for (int i = 0; i < nx - 1; i++) {
          int base = (k * ny + j) * nx + i;
          vertex[base] = -1;
          Vec3 middle = crossing(d, base, step);
          if (middle.z() >= 0) {
            vertex[base] = places.size();
            places.add(low.plus(middle.plus(new Vec3(i, j, k)).times(cell)));
          }
        }
      }
    }
    List<Vec3> normals = new ArrayList<>();
    for (Vec3 p : places) {
      normals.add(gradient(field, p));
    }
    for (int k = 1; k < nz - 1; k++) {
      for (int j = 1; j < ny - 1; j++) {
        for (int i = 1; i < nx - 1; i++) {
          int base = (k * ny + j) * nx + i;
          for (int axis = 0; axis < 3; axis++) {
            if (d[base] < 0 != d[base + step[axis]] < 0) {
              int u = step[(axis + 1) % 3];
              int v = step[(axis + 2) % 3];
              int[] c = {vertex[base - u - v], vertex[base - v], vertex[base], vertex[base - u]};
              quad(mesh, field, places, normals, c);
            }
          }
        }
      }
    }
  }

  private static void quad(Mesh mesh, Field field, List<Vec3> places, List<Vec3> normals, int[] c) {
    Vec3 middle = places.get(c[0]).mix(places.get(c[2]), 0.5);
    Surface surface = field.surface(middle.x(), middle.y(), middle.z());
    for (int half = 1; half <= 2; half++) {
      int a = c[0];
      int b = c[half];
      int e = c[half + 1];
      Vec3 flat = places.get(b).minus(places.get(a)).cross(places.get(e).minus(places.get(a)));
      boolean outward = flat.dot(normals.get(a)) > 0;
      int second = outward ? b : e;
      int third = outward ? e : b;
      mesh.smoothTriangle(
          surface,
          places.get(a),
          places.get(second),
          places.get(third),
          normals.get(a),
          normals.get(second),
          normals.get(third));
    }
  }

  /** The mean of a cell's edge crossings in cells, or a negative z when the surface misses it. */
  private static Vec3 crossing(float[] d, int base, int[] step) {
    Vec3 sum = Vec3.ZERO;
    int n = 0;
    for (int axis = 0; axis < 3; axis++) {
      int u = (axis + 1) % 3;
      int v = (axis + 2) % 3;
      for (int corner = 0; corner < 4; corner++) {
        int cu = corner & 1;
        int cv = corner >> 1;
        int at = base + cu * step[u] + cv * step[v];
        float a = d[at];
        float b = d[at + step[axis]];
        if (a < 0 != b < 0) {
          double[] p = new double[3];
          p[axis] = a / (a - b);
          p[u] = cu;
          p[v] = cv;
          sum = sum.plus(new Vec3(p[0], p[1], p[2]));
          n++;
        }
      }
    }
    return n == 0 ? new Vec3(0, 0, -1) : sum.times(1.0 / n);
  }

  private static Vec3 gradient(Field field, Vec3 p) {
    double h = 0.003;
    Vec3 g =
        new Vec3(
            field.distance(p.x() + h, p.y(), p.z()) - field.distance(p.x() - h, p.y(), p.z()),
            field.distance(p.x(), p.y() + h, p.z()) - field.distance(p.x(), p.y() - h, p.z()),
            field.distance(p.x(), p.y(), p.z() + h) - field.distance(p.x(), p.y(), p.z() - h));
    double length = g.length();
    return length < 1e-12 ? Vec3.UP : g.times(1 / length);
  }
}
