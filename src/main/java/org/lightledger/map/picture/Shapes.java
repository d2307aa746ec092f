package org.lightledger.map.picture;

import java.awt.geom.Path2D;
import org.lightledger.map.MapView;
import org.locationtech.jts.geom.CoordinateSequence;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;

/** Geometries as paths in pixels; corners nearer to each other than can be seen are passed over. */
final class Shapes {
  private static final double NEAREST_PX = 0.4;

  private final MapView view;

  Shapes(MapView view) {
    this.view = view;
  }

  /** Any lines and areas; areas are to be filled by the even-odd rule. */
  Path2D path(Geometry geometry) {
    Path2D path = new Path2D.Double(Path2D.WIND_EVEN_ODD);
    add(path, geometry);
    return path;
  }

  private void add(Path2D path, Geometry geometry) {
    if (geometry instanceof Polygon polygon) {
      line(path, polygon.getExteriorRing().getCoordinateSequence(), true);
      for (int i = 0; i < polygon.getNumInteriorRing(); i++) {
        line(path, polygon.getInteriorRingN(i).getCoordinateSequence(), true);
      }
    } else if (geometry instanceof LineString line) {
      line(path, line.getCoordinateSequence(), false);
    } else {
      for (int i = 0; i < geometry.getNumGeometries(); i++) {
        Geometry part = geometry.getGeometryN(i);
        if (part != geometry) {
          add(path, part);
        }
      }
    }
  }

  private void line(Path2D path, CoordinateSequence places, boolean closed) {
    int last = places.size() - 1;
    double drawnX = 0.0;
    double drawnY = 0.0;
    for (int i = 0; i <= last; i++) {
      double x = view.xPx(places.getX(i));
      double y = view.yPx(places.getY(i));
      if (i == 0) {
        path.moveTo(x, y);
      } else if (i < last
          && Math.abs(x - drawnX) < NEAREST_PX
          && Math.abs(y - drawnY) < NEAREST_PX) {
        continue;
      } else if (i == last && closed) {
        path.closePath();
      } else {
        path.lineTo(x, y);
      }
      drawnX = x;
      drawnY = y;
    }
  }
}
