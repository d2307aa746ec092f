package org.lightledger.map.osm;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import org.lightledger.map.MapBox;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Location;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.overlayng.OverlayNG;
import org.locationtech.jts.operation.overlayng.OverlayNGRobust;
import org.locationtech.jts.operation.polygonize.Polygonizer;
import org.locationtech.jts.operation.union.UnaryUnionOp;

/**
 * The sea of a region. Coastlines have land on their left and water on their right (OpenStreetMap
 * wiki, "Tag:natural=coastline"); the region's box cut along them falls into pieces, each of which
 * is sea or land as most of the coast around it says.
 */
final class Coast {
  /** How far beside the coast is asked, degrees: some centimetres, less than any piece is wide. */
  private static final double BESIDE_DEG = 5e-7;

  private Coast() {}

  /** The pieces of sea; none when the coast does not cut the box. */
  static List<Polygon> sea(List<LineString> coast, MapBox bounds) {
    Envelope envelope = bounds.envelope();
    Geometry box = Rings.FACTORY.toGeometry(envelope);
    if (box.getDimension() != 2) {
      return List.of();
    }
    Geometry lines =
        OverlayNGRobust.overlay(
            Rings.FACTORY.buildGeometry(coast), box, OverlayNG.INTERSECTION);
    List<Geometry> edges = new ArrayList<>();
    edges.add(box.getBoundary());
    edges.add(lines);
    Polygonizer polygonizer = new Polygonizer();
    polygonizer.add(UnaryUnionOp.union(edges));
    @SuppressWarnings("unchecked")
    Collection<Polygon> pieces = polygonizer.getPolygons();
    List<Polygon> sea = new ArrayList<>();
    for (Polygon piece : pieces) {
      if (isSea(piece, coast)) {
        sea.add(piece);
      }
    }
    return sea;
  }

  private static boolean isSea(Polygon piece, List<LineString> coast) {
    Envelope around = piece.getEnvelopeInternal();
    IndexedPointInAreaLocator locator = new IndexedPointInAreaLocator(piece);
    double wet = 0.0;
    double dry = 0.0;
    for (LineString line : coast) {
      if (!line.getEnvelopeInternal().intersects(around)) {
        continue;
      }
      for (int i = 1; i < line.getNumPoints(); i++) {
        Coordinate from = line.getCoordinateN(i - 1);
        Coordinate to = line.getCoordinateN(i);
        double length = from.distance(to);
        if (length > 0.0) {
          double east = (to.y - from.y) / length * BESIDE_DEG;
          double north = -(to.x - from.x) / length * BESIDE_DEG;
          Coordinate middle = new Coordinate((from.x + to.x) / 2.0, (from.y + to.y) / 2.0);
          wet += holds(locator, middle, east, north) ? length : 0.0;
          dry += holds(locator, middle, -east, -north) ? length : 0.0;
        }
      }
    }
    return wet > dry;
  }

  private static boolean holds(
      IndexedPointInAreaLocator locator, Coordinate middle, double east, double north) {
    return locator.locate(new Coordinate(middle.x + east, middle.y + north)) == Location.INTERIOR;
  }
}
