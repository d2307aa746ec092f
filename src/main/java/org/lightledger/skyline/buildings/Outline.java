package org.lightledger.skyline.buildings;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.Ground;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;

/**
 * An obstruction with its rings as plain numbers, longitude before latitude, and its ground.
 *
 * @param obstruction which
 * @param rings outer rings and holes, closed; a place is inside when it is inside an odd number
 * @param groundM the ground, metres; NaN when it is not known
 */
record Outline(Obstruction obstruction, double[][] rings, double groundM) {

  static Outline of(Obstruction obstruction, @Nullable Ground ground) {
    List<double[]> rings = new ArrayList<>();
    Geometry outline = obstruction.outline();
    for (int i = 0; i < outline.getNumGeometries(); i++) {
      Polygon polygon = (Polygon) outline.getGeometryN(i);
      rings.add(ring(polygon.getExteriorRing().getCoordinates()));
      for (int hole = 0; hole < polygon.getNumInteriorRing(); hole++) {
        rings.add(ring(polygon.getInteriorRingN(hole).getCoordinates()));
      }
    }
    double[][] all = rings.toArray(double[][]::new);
    Double given = obstruction.groundM();
    double groundM = given != null ? given : ground == null ? Double.NaN : lowest(all, ground);
    return new Outline(obstruction, all, groundM);
  }

  private static double[] ring(Coordinate[] coordinates) {
    double[] ring = new double[2 * coordinates.length];
    for (int i = 0; i < coordinates.length; i++) {
      ring[2 * i] = coordinates[i].x;
      ring[2 * i + 1] = coordinates[i].y;
    }
    return ring;
  }

  /** On a slope, heights are counted from the lowest corner (OpenStreetMap, Key:height). */
  private static double lowest(double[][] rings, Ground ground) {
    double lowest = Double.POSITIVE_INFINITY;
    for (double[] ring : rings) {
      for (int i = 0; i < ring.length; i += 2) {
        double height =
            ground.groundM(new GeoPoint(ring[i + 1], ring[i])).orElse(Double.POSITIVE_INFINITY);
        lowest = Math.min(lowest, height);
      }
    }
    return Double.isFinite(lowest) ? lowest : Double.NaN;
  }
}
