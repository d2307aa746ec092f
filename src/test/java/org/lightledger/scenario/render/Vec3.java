package org.lightledger.scenario.render;

/**
 * Three numbers: a place or direction (x east, y north, z up, metres) or a linear colour (R, G, B).
 *
 * @param x east, or red
 * @param y north, or green
 * @param z up, or blue
 */
public record Vec3(double x, double y, double z) {
  /** Nothing in every component. */
  public static final Vec3 ZERO = new Vec3(0, 0, 0);

  /** Straight up. */
  public static final Vec3 UP = new Vec3(0, 0, 1);

  static Vec3 grey(double value) {
    return new Vec3(value, value, value);
  }

  /** The unit vector towards an azimuth (clockwise from north) and an altitude, degrees. */
  public static Vec3 towards(double azimuthDeg, double altitudeDeg) {
    double azimuth = Math.toRadians(azimuthDeg);
    double altitude = Math.toRadians(altitudeDeg);
    return new Vec3(
        Math.cos(altitude) * Math.sin(azimuth),
        Math.cos(altitude) * Math.cos(azimuth),
        Math.sin(altitude));
  }

  public Vec3 plus(Vec3 o) {
    return new Vec3(x + o.x, y + o.y, z + o.z);
  }

  public Vec3 minus(Vec3 o) {
    return new Vec3(x - o.x, y - o.y, z - o.z);
  }

  public Vec3 times(double s) {
    return new Vec3(x * s, y * s, z * s);
  }

  Vec3 times(Vec3 o) {
    return new Vec3(x * o.x, y * o.y, z * o.z);
  }

  Vec3 mix(Vec3 o, double share) {
    return new Vec3(x + (o.x - x) * share, y + (o.y - y) * share, z + (o.z - z) * share);
  }

  public double dot(Vec3 o) {
    return x * o.x + y * o.y + z * o.z;
  }

  Vec3 cross(Vec3 o) {
    return new Vec3(y * o.z - z * o.y, z * o.x - x * o.z, x * o.y - y * o.x);
  }

  public double length() {
    return Math.sqrt(dot(this));
  }

  public Vec3 unit() {
    return times(1.0 / length());
  }

  boolean isZero() {
    return x == 0 && y == 0 && z == 0;
  }

  /** The photometric value of a linear sRGB colour (ITU-R BT.709). */
  double luminance() {
    return 0.2126 * x + 0.7152 * y + 0.0722 * z;
  }

  /** A unit vector at right angles to this unit vector. */
  Vec3 sideways() {
    Vec3 other = Math.abs(z) < 0.9 ? UP : new Vec3(1, 0, 0);
    return cross(other).unit();
  }
}
