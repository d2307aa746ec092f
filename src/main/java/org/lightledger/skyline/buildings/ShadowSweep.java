package org.lightledger.skyline.buildings;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.lightledger.sun.SunDirection;
import org.locationtech.jts.algorithm.Orientation;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateSequence;
import org.locationtech.jts.geom.CoordinateSequenceFilter;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.util.GeometryFixer;
import org.locationtech.jts.operation.overlayng.OverlayNGRobust;

/**
 * Sweeps outlines away from the sun in the metres of a plane. A place is swept over when it lies in
 * the outline, or between an edge that looks away from the sun and the same edge moved to the
 * shadow's end. Edges that look away and follow each other make a chain that never turns back
 * across the sun's direction, so the chain and the moved chain bound a simple area.
 *
 * <p>Not for use by several threads at once.
 */
final class ShadowSweep {
  private static final GeometryFactory FACTORY = new GeometryFactory();

  private final LocalPlane plane;
  private final ShadowOptions options;
  private final double altitudeDeg;
  private final double sunEast;
  private final double sunNorth;
  private boolean cut;

  ShadowSweep(LocalPlane plane, SunDirection sun, ShadowOptions options) {
    this.plane = plane;
    this.options = options;
    this.altitudeDeg = sun.apparentAltitudeDeg();
    this.sunEast = Math.sin(Math.toRadians(sun.azimuth().trueDeg()));
    this.sunNorth = Math.cos(Math.toRadians(sun.azimuth().trueDeg()));
  }

  /** Whether a shadow was longer than the longest asked for. */
  boolean cut() {
    return cut;
  }

  /** The shadow of each part of an obstruction, metres; nothing when its top is below the plane. */
  Stream<Geometry> of(Outline outline) {
    double heightM = outline.obstruction().heightM() - options.planeHeightM();
    if (!(heightM > 0.0)) {
      return Stream.empty();
    }
    Geometry metres = outline.obstruction().outline().copy();
    metres.apply(new ToMetres());
    metres.geometryChanged();
    Geometry valid = metres.isValid() ? metres : GeometryFixer.fix(metres);
    List<Geometry> shadows = new ArrayList<>();
    for (int i = 0; i < valid.getNumGeometries(); i++) {
      if (valid.getGeometryN(i) instanceof Polygon part && !part.isEmpty()) {
        shadows.add(swept(part, heightM));
      }
    }
    return shadows.stream();
  }

  /** Metres of the plane as longitude and latitude. */
  Geometry toDegrees(Geometry metres) {
    // The overlay lets rings share corners, which would be turned twice.
    Geometry degrees = metres.copy();
    degrees.apply(new ToDegrees());
    degrees.geometryChanged();
    return degrees;
  }

  private Geometry swept(Polygon part, double heightM) {
    Coordinate middle = part.getEnvelopeInternal().centre();
    double towardsSunM = middle.x * sunEast + middle.y * sunNorth;
    double localDeg = altitudeDeg + Math.toDegrees(towardsSunM / ShadowOptions.EARTH_RADIUS_M);
    double reachM = options.reachM(heightM, localDeg);
    if (reachM > options.longestM()) {
      reachM = options.longestM();
      cut = true;
    }
    double east = -reachM * sunEast;
    double north = -reachM * sunNorth;
    List<Geometry> pieces = new ArrayList<>();
    pieces.add(part);
    chains(part.getExteriorRing(), false, east, north, pieces);
    for (int hole = 0; hole < part.getNumInteriorRing(); hole++) {
      chains(part.getInteriorRingN(hole), true, east, north, pieces);
    }
    return pieces.size() == 2 && part.getNumInteriorRing() == 0
        ? joined(part, (Polygon) pieces.get(1))
        : OverlayNGRobust.union(pieces);
  }

  /** Adds the area between each chain of edges that look away from the sun and its moved image. */
  private static void chains(
      LinearRing ring, boolean hole, double east, double north, List<Geometry> pieces) {
    Coordinate[] corners = ring.getCoordinates();
    int edges = corners.length - 1;
    // With the area to their left, edges that look along the shadow turn their right side to it.
    boolean leftInside = Orientation.isCCW(corners) != hole;
    boolean[] away = new boolean[edges];
    int start = -1;
    for (int i = 0; i < edges; i++) {
      double cross =
          (corners[i + 1].x - corners[i].x) * north - (corners[i + 1].y - corners[i].y) * east;
      away[i] = leftInside ? cross < 0.0 : cross > 0.0;
      if (!away[i]) {
        start = i;
      }
    }
    for (int i = 1; i <= edges; i++) {
      int first = (start + i) % edges;
      if (!away[first] || away[(first + edges - 1) % edges]) {
        continue;
      }
      int length = 1;
      while (away[(first + length) % edges]) {
        length++;
      }
      Coordinate[] around = new Coordinate[2 * length + 3];
      for (int k = 0; k <= length; k++) {
        Coordinate corner = corners[(first + k) % edges];
        around[k] = new Coordinate(corner.x, corner.y);
        around[2 * length + 1 - k] = new Coordinate(corner.x + east, corner.y + north);
      }
      around[2 * length + 2] = new Coordinate(around[0]);
      pieces.add(FACTORY.createPolygon(around));
    }
  }

  /**
   * An outline with one chain and no holes runs over and back across the sun's direction once, so
   * its shadow is the ring with the chain moved, and no overlay is needed.
   */
  private static Polygon joined(Polygon part, Polygon chain) {
    Coordinate[] corners = part.getExteriorRing().getCoordinates();
    Coordinate[] around = chain.getExteriorRing().getCoordinates();
    int length = (around.length - 3) / 2;
    int edges = corners.length - 1;
    int first = 0;
    while (!corners[first].equals2D(around[0])) {
      first++;
    }
    List<Coordinate> ring = new ArrayList<>(edges + 3);
    for (int k = length; k <= edges; k++) {
      Coordinate corner = corners[(first + k) % edges];
      ring.add(new Coordinate(corner.x, corner.y));
    }
    for (int k = 0; k <= length; k++) {
      ring.add(around[2 * length + 1 - k]);
    }
    ring.add(new Coordinate(ring.get(0)));
    return FACTORY.createPolygon(ring.toArray(Coordinate[]::new));
  }

  private final class ToMetres extends EachCoordinate {
    @Override
    public void filter(CoordinateSequence sequence, int i) {
      double longitudeDeg = sequence.getX(i);
      double latitudeDeg = sequence.getY(i);
      sequence.setOrdinate(i, 0, plane.eastM(longitudeDeg, latitudeDeg));
      sequence.setOrdinate(i, 1, plane.northM(longitudeDeg, latitudeDeg));
    }
  }

  private final class ToDegrees extends EachCoordinate {
    @Override
    public void filter(CoordinateSequence sequence, int i) {
      double[] there = plane.toDegrees(sequence.getX(i), sequence.getY(i));
      sequence.setOrdinate(i, 0, there[0]);
      sequence.setOrdinate(i, 1, there[1]);
    }
  }

  /** Changes every coordinate in place. */
  private abstract static class EachCoordinate implements CoordinateSequenceFilter {
    @Override
    public boolean isDone() {
      return false;
    }

    @Override
    public boolean isGeometryChanged() {
      return false;
    }
  }
}
