package org.lightledger.scenario.render;

import java.util.List;

/** Shapes that stand somewhere. Each thread looks through its own {@link Eye}. */
final class Scene {
  private final Shape[] shapes;
  private final double[] frames;
  private final Bvh tree;

  Scene(List<Placement> placements) {
    int n = placements.size();
    shapes = new Shape[n];
    frames = new double[7 * n];
    float[] boxes = new float[6 * n];
    for (int i = 0; i < n; i++) {
      Placement p = placements.get(i);
      shapes[i] = p.shape();
      int at = 7 * i;
      frames[at] = p.origin().x();
      frames[at + 1] = p.origin().y();
      frames[at + 2] = p.origin().z();
      frames[at + 3] = Math.cos(p.turnRad());
      frames[at + 4] = Math.sin(p.turnRad());
      frames[at + 5] = p.scale();
      frames[at + 6] = p.tint();
      bound(boxes, i);
    }
    tree = new Bvh(boxes);
  }

  private void bound(float[] boxes, int i) {
    float[] own = shapes[i].bounds();
    int at = 6 * i;
    for (int k = 0; k < 3; k++) {
      boxes[at + k] = Float.POSITIVE_INFINITY;
      boxes[at + 3 + k] = Float.NEGATIVE_INFINITY;
    }
    for (int corner = 0; corner < 8; corner++) {
      Vec3 p =
          outward(
              i,
              own[(corner & 1) == 0 ? 0 : 3],
              own[(corner & 2) == 0 ? 1 : 4],
              own[(corner & 4) == 0 ? 2 : 5]);
      double[] xyz = {p.x(), p.y(), p.z()};
      for (int k = 0; k < 3; k++) {
        boxes[at + k] = Math.min(boxes[at + k], (float) xyz[k] - 1e-3f);
        boxes[at + 3 + k] = Math.max(boxes[at + 3 + k], (float) xyz[k] + 1e-3f);
      }
    }
  }

  private Vec3 outward(int i, double x, double y, double z) {
    int at = 7 * i;
    double c = frames[at + 3];
    double s = frames[at + 4];
    double k = frames[at + 5];
    return new Vec3(
        frames[at] + k * (c * x - s * y),
        frames[at + 1] + k * (s * x + c * y),
        frames[at + 2] + k * z);
  }

  Eye eye() {
    return new Eye();
  }

  /** One thread's view into the scene. */
  final class Eye {
    private final Ray ray = new Ray();
    private final Ray inner = new Ray();
    private final double[] where = new double[2];
    private final Bvh.Items triangles = this::tryTriangle;
    private final Bvh.Items placements = this::tryPlacement;
    private boolean any;
    private int current;
    private int bestPlacement;
    private int bestTriangle;
    private double bestU;
    private double bestV;

    /** Finds the nearest surface along a unit direction; false when there is none. */
    boolean look(Vec3 from, Vec3 direction, Hit hit) {
      return look(from, direction, Double.POSITIVE_INFINITY, hit);
    }

    /** Finds the nearest surface within a reach along a unit direction; false if there is none. */
    boolean look(Vec3 from, Vec3 direction, double reachM, Hit hit) {
      any = false;
      ray.aim(from.x(), from.y(), from.z(), direction.x(), direction.y(), direction.z());
      ray.end = reachM;
      if (!tree.walk(ray, placements, false)) {
        return false;
      }
      Shape shape = shapes[bestPlacement];
      int at = 7 * bestPlacement;
      double c = frames[at + 3];
      double s = frames[at + 4];
      hit.distance = ray.end;
      hit.surface = shape.surface(bestTriangle);
      hit.place = from.plus(direction.times(ray.end));
      Vec3 moved = hit.place.minus(new Vec3(frames[at], frames[at + 1], frames[at + 2]));
      double k = 1 / frames[at + 5];
      hit.own =
          new Vec3(
              k * (c * moved.x() + s * moved.y()),
              k * (-s * moved.x() + c * moved.y()),
              k * moved.z());
      hit.ownFlat = shape.flatNormal(bestTriangle);
      hit.flat = turned(hit.ownFlat, c, s);
      hit.normal = turned(shape.normal(bestTriangle, bestU, bestV), c, s);
      hit.tint = frames[at + 6];
      return true;
    }

    /** Whether anything stands along a unit direction. */
    boolean blocked(Vec3 from, Vec3 direction) {
      any = true;
      ray.aim(from.x(), from.y(), from.z(), direction.x(), direction.y(), direction.z());
      ray.end = Double.POSITIVE_INFINITY;
      return tree.walk(ray, placements, true);
    }

    private static Vec3 turned(Vec3 v, double c, double s) {
      return new Vec3(c * v.x() - s * v.y(), s * v.x() + c * v.y(), v.z());
    }

    private boolean tryPlacement(int i, Ray outer) {
      current = i;
      int at = 7 * i;
      double c = frames[at + 3];
      double s = frames[at + 4];
      double k = 1 / frames[at + 5];
      double x = outer.ox - frames[at];
      double y = outer.oy - frames[at + 1];
      double z = outer.oz - frames[at + 2];
      inner.aim(
          k * (c * x + s * y),
          k * (-s * x + c * y),
          k * z,
          k * (c * outer.dx + s * outer.dy),
          k * (-s * outer.dx + c * outer.dy),
          k * outer.dz);
      inner.end = outer.end;
      if (shapes[i].walk(inner, triangles, any)) {
        outer.end = inner.end;
        return true;
      }
      return false;
    }

    private boolean tryTriangle(int triangle, Ray inside) {
      double t = shapes[current].distance(triangle, inside, where);
      if (t == Double.POSITIVE_INFINITY) {
        return false;
      }
      inside.end = t;
      bestPlacement = current;
      bestTriangle = triangle;
      bestU = where[0];
      bestV = where[1];
      return true;
    }
  }
}
