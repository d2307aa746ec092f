package org.lightledger.map.osm;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.index.strtree.STRtree;
import org.locationtech.jts.operation.overlayng.OverlayNG;
import org.locationtech.jts.operation.overlayng.OverlayNGRobust;
import org.locationtech.jts.operation.union.UnaryUnionOp;

/** The parts of buildings. */
final class Parts {
  /**
   * What the parts of a building have to cover of it, so that its outline says nothing more: all
   * but the inexactness of drawing (own choice). OpenStreetMap's "Simple 3D Buildings" wants all of
   * it covered; where mappers did less, the outline is the only word on the rest.
   */
  private static final double FILLED = 0.9;

  private final STRtree index = new STRtree();
  private boolean any;

  private record Part(Geometry area, double heightM) {}

  void add(Geometry area, double heightM) {
    index.insert(area.getEnvelopeInternal(), new Part(area, heightM));
    any = true;
  }

  /**
   * How high the parts rise that fill a building, metres; nothing when they do not fill it. Once it
   * is asked no part can be added.
   */
  OptionalDouble highestM(Geometry building) {
    if (!any) {
      return OptionalDouble.empty();
    }
    List<Geometry> areas = new ArrayList<>();
    double highestM = 0.0;
    for (Object found : index.query(building.getEnvelopeInternal())) {
      Part part = (Part) found;
      if (building.contains(part.area().getInteriorPoint())) {
        areas.add(part.area());
        highestM = Math.max(highestM, part.heightM());
      }
    }
    if (areas.isEmpty()) {
      return OptionalDouble.empty();
    }
    Geometry covered =
        OverlayNGRobust.overlay(building, UnaryUnionOp.union(areas), OverlayNG.INTERSECTION);
    return covered.getArea() >= FILLED * building.getArea()
        ? OptionalDouble.of(highestM)
        : OptionalDouble.empty();
  }
}
