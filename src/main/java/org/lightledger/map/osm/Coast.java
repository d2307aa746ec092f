package org.lightledger.map.osm;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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
 * is sea or land as the coast around it says.
 */
final class Coast {
  /** How far beside the coast is asked, degrees: some centimetres, less than any piece is wide. */
  private static final double BESIDE_DEG = 5e-7;

  /** How much of a sea's coast may have its water on the wrong side, for mistakes: own choice. */
  private static final double MOST_DRY = 0.1;

  private Coast() {}

  /**
   * The pieces of sea, in an order that depends on nothing else; none when the coast does not cut
   * the box.
   *
   * @param coast the coastlines
   * @param bounds the region
   * @param problems is told of ends inside of the region, from where the sea is bounded by the
   *     shortest way out
   */
  static List<Polygon> sea(List<LineString> coast, MapBox bounds, Problems problems) {
    Geometry box = Rings.FACTORY.toGeometry(bounds.envelope());
    if (box.getDimension() != 2) {
      return List.of();
    }
    List<Geometry> lines = new ArrayList<>(coast);
    List<Coordinate> ends = endsInside(coast, bounds);
    for (Coordinate end : ends) {
      lines.add(Rings.FACTORY.createLineString(new Coordinate[] {end, nearestEdge(end, bounds)}));
    }
    if (!ends.isEmpty()) {
      problems.add(
          "coastline",
          "expected a coast that crosses the region, found %d ends inside; from there the sea's edge"
                  .formatted(ends.size())
              + " is drawn the shortest way out");
    }
    Polygonizer polygonizer = new Polygonizer();
    polygonizer.add(
        UnaryUnionOp.union(
            List.of(
                box.getBoundary(),
                OverlayNGRobust.overlay(
                    Rings.FACTORY.buildGeometry(lines), box, OverlayNG.INTERSECTION))));
    @SuppressWarnings("unchecked")
    Collection<Polygon> pieces = polygonizer.getPolygons();
    List<Polygon> sea = new ArrayList<>();
    for (Polygon piece : pieces) {
      if (isSea(piece, coast)) {
        piece.normalize();
        sea.add(piece);
      }
    }
    sea.sort(null);
    return sea;
  }

  /** Where a coastline begins or ends and no other goes on. */
  private static List<Coordinate> endsInside(List<LineString> coast, MapBox bounds) {
    Map<Coordinate, Integer> ends = new LinkedHashMap<>();
    for (LineString line : coast) {
      ends.merge(line.getCoordinateN(0), 1, Integer::sum);
      ends.merge(line.getCoordinateN(line.getNumPoints() - 1), 1, Integer::sum);
    }
    List<Coordinate> inside = new ArrayList<>();
    ends.forEach(
        (end, lines) -> {
          if (lines % 2 == 1 && !end.equals2D(nearestEdge(end, bounds)) && holds(bounds, end)) {
            inside.add(end);
          }
        });
    return inside;
  }

  private static boolean holds(MapBox box, Coordinate place) {
    return box.envelope().contains(place);
  }

  private static Coordinate nearestEdge(Coordinate place, MapBox box) {
    double west = place.x - box.westDeg();
    double east = box.eastDeg() - place.x;
    double south = place.y - box.southDeg();
    double north = box.northDeg() - place.y;
    double nearest = Math.min(Math.min(west, east), Math.min(south, north));
    if (nearest == west || nearest == east) {
      return new Coordinate(nearest == west ? box.westDeg() : box.eastDeg(), place.y);
    }
    return new Coordinate(place.x, nearest == south ? box.southDeg() : box.northDeg());
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
    return wet > 0.0 && dry <= MOST_DRY * wet;
  }

  private static boolean holds(
      IndexedPointInAreaLocator locator, Coordinate middle, double east, double north) {
    return locator.locate(new Coordinate(middle.x + east, middle.y + north)) == Location.INTERIOR;
  }
}
