package org.lightledger.geo;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import net.sf.geographiclib.GeodesicMask;

/**
 * Distances and bearings along geodesics of the WGS 84 ellipsoid, by GeographicLib (Karney 2013,
 * "Algorithms for geodesics", exact to some nanometres).
 */
public final class Geodesy {
  private Geodesy() {}

  /**
   * The length of the shortest line between two places.
   *
   * @param from start
   * @param to end
   * @return metres, 0 or more
   */
  public static double distanceM(GeoPoint from, GeoPoint to) {
    return Geodesic.WGS84.Inverse(
            from.latitudeDeg(),
            from.longitudeDeg(),
            to.latitudeDeg(),
            to.longitudeDeg(),
            GeodesicMask.DISTANCE)
        .s12;
  }

  /**
   * The bearing in which the shortest line leaves a place.
   *
   * @param from start
   * @param to end, different from the start
   * @return true bearing at the start
   */
  public static Bearing bearing(GeoPoint from, GeoPoint to) {
    GeodesicData line =
        Geodesic.WGS84.Inverse(
            from.latitudeDeg(),
            from.longitudeDeg(),
            to.latitudeDeg(),
            to.longitudeDeg(),
            GeodesicMask.AZIMUTH);
    return Bearing.of(line.azi1);
  }

  /**
   * The place reached from another along a geodesic.
   *
   * @param from start
   * @param bearing true bearing at the start
   * @param distanceM metres, finite
   * @return the place reached
   */
  public static GeoPoint destination(GeoPoint from, Bearing bearing, double distanceM) {
    GeodesicData line =
        Geodesic.WGS84.Direct(
            from.latitudeDeg(), from.longitudeDeg(), bearing.trueDeg(), distanceM);
    return new GeoPoint(line.lat2, line.lon2);
  }

  /**
   * The place a part of the way along the shortest line between two places.
   *
   * @param from start
   * @param to end
   * @param part how far, 0 for the start, 1 for the end
   * @return the place between
   */
  public static GeoPoint between(GeoPoint from, GeoPoint to, double part) {
    GeodesicData line =
        Geodesic.WGS84.Inverse(
            from.latitudeDeg(), from.longitudeDeg(), to.latitudeDeg(), to.longitudeDeg());
    return line.s12 == 0 ? from : destination(from, Bearing.of(line.azi1), line.s12 * part);
  }
}
