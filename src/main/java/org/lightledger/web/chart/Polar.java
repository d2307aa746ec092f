package org.lightledger.web.chart;

/** Points and sectors around a centre, angles clockwise from straight up. */
record Polar(double centreX, double centreY) {
  double x(double angleDeg, double radius) {
    return centreX + radius * Math.sin(Math.toRadians(angleDeg));
  }

  double y(double angleDeg, double radius) {
    return centreY - radius * Math.cos(Math.toRadians(angleDeg));
  }

  /** A slice from the centre, or a full disc when it spans the whole turn. */
  String sector(double fromDeg, double toDeg, double radius) {
    return ring(fromDeg, toDeg, 0, radius);
  }

  /** A slice of a ring; the inner radius may be 0. */
  String ring(double fromDeg, double toDeg, double inner, double outer) {
    double spanDeg = Math.min(toDeg - fromDeg, 359.99);
    double endDeg = fromDeg + spanDeg;
    String large = spanDeg > 180 ? "1" : "0";
    StringBuilder path = new StringBuilder();
    path.append('M').append(point(fromDeg, outer));
    path.append('A').append(radii(outer)).append(" 0 ").append(large).append(" 1 ");
    path.append(point(endDeg, outer)).append('L').append(point(endDeg, inner));
    if (inner > 0) {
      path.append('A').append(radii(inner)).append(" 0 ").append(large).append(" 0 ");
      path.append(point(fromDeg, inner));
    }
    return path.append('Z').toString();
  }

  /** The half disc that looks towards an angle. */
  String half(double towardsDeg, double radius) {
    return "M"
        + point(towardsDeg - 90, radius)
        + "A"
        + radii(radius)
        + " 0 0 1 "
        + point(towardsDeg + 90, radius)
        + "Z";
  }

  private String point(double angleDeg, double radius) {
    return Drawing.number(x(angleDeg, radius)) + " " + Drawing.number(y(angleDeg, radius));
  }

  private static String radii(double radius) {
    return Drawing.number(radius) + " " + Drawing.number(radius);
  }
}
