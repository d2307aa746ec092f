package org.lightledger.scenario.render;

/** Frozen triangles with their tree of boxes. Safe for use by several threads. */
final class Shape {
  private final float[] corners;
  private final float[] normals;
  private final byte[] surfaces;
  private final Bvh tree;

  Shape(float[] corners, float[] normals, byte[] surfaces) {
    this.corners = corners;
    this.normals = normals;
    this.surfaces = surfaces;
    float[] boxes = new float[6 * surfaces.length];
    for (int i = 0; i < surfaces.length; i++) {
      for (int k = 0; k < 3; k++) {
        float a = corners[9 * i + k];
        float b = corners[9 * i + 3 + k];
        float c = corners[9 * i + 6 + k];
        boxes[6 * i + k] = Math.min(a, Math.min(b, c));
        boxes[6 * i + 3 + k] = Math.max(a, Math.max(b, c));
      }
    }
    tree = new Bvh(boxes);
  }

  int size() {
    return surfaces.length;
  }

  float[] bounds() {
    return tree.bounds();
  }

  boolean walk(Ray ray, Bvh.Items items, boolean any) {
    return surfaces.length > 0 && tree.walk(ray, items, any);
  }

  Surface surface(int triangle) {
    return Surface.of(surfaces[triangle]);
  }

  /**
   * The distance to a triangle along a ray (Möller and Trumbore 1997), with the place inside the
   * triangle left in {@code where} as two barycentric numbers.
   *
   * @return lengths of the ray's direction, or infinity
   */
  double distance(int triangle, Ray ray, double[] where) {
    float[] p = corners;
    int i = 9 * triangle;
    double ax = p[i];
    double ay = p[i + 1];
    double az = p[i + 2];
    double ux = p[i + 3] - ax;
    double uy = p[i + 4] - ay;
    double uz = p[i + 5] - az;
    double vx = p[i + 6] - ax;
    double vy = p[i + 7] - ay;
    double vz = p[i + 8] - az;
    double px = ray.dy * vz - ray.dz * vy;
    double py = ray.dz * vx - ray.dx * vz;
    double pz = ray.dx * vy - ray.dy * vx;
    double det = ux * px + uy * py + uz * pz;
    if (det > -1e-14 && det < 1e-14) {
      return Double.POSITIVE_INFINITY;
    }
    double inverse = 1 / det;
    double sx = ray.ox - ax;
    double sy = ray.oy - ay;
    double sz = ray.oz - az;
    double u = (sx * px + sy * py + sz * pz) * inverse;
    if (u < -1e-7 || u > 1.0000001) {
      return Double.POSITIVE_INFINITY;
    }
    double qx = sy * uz - sz * uy;
    double qy = sz * ux - sx * uz;
    double qz = sx * uy - sy * ux;
    double v = (ray.dx * qx + ray.dy * qy + ray.dz * qz) * inverse;
    if (v < -1e-7 || u + v > 1.0000001) {
      return Double.POSITIVE_INFINITY;
    }
    double t = (vx * qx + vy * qy + vz * qz) * inverse;
    if (t <= 1e-6 || t >= ray.end) {
      return Double.POSITIVE_INFINITY;
    }
    where[0] = u;
    where[1] = v;
    return t;
  }

  Vec3 flatNormal(int triangle) {
    float[] p = corners;
    int i = 9 * triangle;
    Vec3 u = new Vec3(p[i + 3] - p[i], p[i + 4] - p[i + 1], p[i + 5] - p[i + 2]);
    Vec3 v = new Vec3(p[i + 6] - p[i], p[i + 7] - p[i + 1], p[i + 8] - p[i + 2]);
    return u.cross(v).unit();
  }

  Vec3 normal(int triangle, double u, double v) {
    if (normals.length == 0) {
      return flatNormal(triangle);
    }
    float[] n = normals;
    int i = 9 * triangle;
    double w = 1 - u - v;
    return new Vec3(
            w * n[i] + u * n[i + 3] + v * n[i + 6],
            w * n[i + 1] + u * n[i + 4] + v * n[i + 7],
            w * n[i + 2] + u * n[i + 5] + v * n[i + 8])
        .unit();
  }
}
