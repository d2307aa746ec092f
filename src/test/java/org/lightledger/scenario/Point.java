package org.lightledger.scenario;

/**
 * A place on the scenario's plane.
 *
 * @param east metres east of the origin
 * @param north metres north of the origin
 */
public record Point(double east, double north) {

  /** The place some way off along a bearing, degrees clockwise from north. */
  public Point along(double bearingDeg, double metres) {
    double angle = Math.toRadians(bearingDeg);
    return new Point(east + metres * Math.sin(angle), north + metres * Math.cos(angle));
  }

  /** Metres to another place. */
  public double to(Point other) {
    return Math.hypot(other.east - east, other.north - north);
  }

  /** The bearing to another place, degrees clockwise from north, in [0, 360). */
  public double bearingTo(Point other) {
    double angle = Math.toDegrees(Math.atan2(other.east - east, other.north - north));
    return angle < 0 ? angle + 360 : angle;
  }

  /** Metres to the nearest place on the straight line between two others. */
  double toLine(Point a, Point b) {
    double dx = b.east - a.east;
    double dy = b.north - a.north;
    double t = ((east - a.east) * dx + (north - a.north) * dy) / (dx * dx + dy * dy);
    double clamped = Math.max(0, Math.min(1, t));
    return Math.hypot(a.east + clamped * dx - east, a.north + clamped * dy - north);
  }
}
