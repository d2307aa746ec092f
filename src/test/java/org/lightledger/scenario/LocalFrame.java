package org.lightledger.scenario;

import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;

/**
 * Between local metres and the ellipsoid: the azimuthal equidistant projection about the origin.
 * Distances and bearings from the origin are exact; between two places 3 km out they are wrong by
 * less than a part in ten million, and north by less than 0.03 degrees.
 */
public final class LocalFrame {
  private static final GeoPoint ORIGIN = new GeoPoint(41.93, -6.42);

  private LocalFrame() {}

  /** Where the local metres start. */
  public static GeoPoint origin() {
    return ORIGIN;
  }

  /** The place on the ellipsoid of a place in local metres. */
  public static GeoPoint toGeo(double east, double north) {
    double metres = Math.hypot(east, north);
    if (metres == 0) {
      return ORIGIN;
    }
    Bearing bearing = Bearing.of(Math.toDegrees(Math.atan2(east, north)));
    return Geodesy.destination(ORIGIN, bearing, metres);
  }

  /** The place on the ellipsoid of a place in local metres. */
  public static GeoPoint toGeo(Point point) {
    return toGeo(point.east(), point.north());
  }

  /** The place in local metres of a place on the ellipsoid. */
  public static Point toLocal(GeoPoint place) {
    if (place.equals(ORIGIN)) {
      return new Point(0, 0);
    }
    return new Point(0, 0)
        .along(Geodesy.bearing(ORIGIN, place).trueDeg(), Geodesy.distanceM(ORIGIN, place));
  }
}
