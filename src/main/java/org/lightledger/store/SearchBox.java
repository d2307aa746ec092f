package org.lightledger.store;

import java.util.ArrayList;
import java.util.List;
import org.lightledger.geo.GeoPoint;
import org.lightledger.map.MapBox;

/**
 * A range of longitudes and latitudes that certainly holds every place within some distance of
 * another. It may hold more.
 *
 * @param westDeg smallest longitude, in [-180, 180]
 * @param eastDeg largest longitude, in [-180, 180], not less than the smallest
 * @param southDeg smallest latitude, in [-90, 90]
 * @param northDeg largest latitude, in [-90, 90], not less than the smallest
 */
record SearchBox(double westDeg, double eastDeg, double southDeg, double northDeg) {
  /** Equatorial radius of the WGS 84 ellipsoid, metres (NGA.STND.0036). */
  private static final double EQUATORIAL_RADIUS_M = 6_378_137.0;

  /**
   * The smallest radius of curvature of a meridian, b²/a at the equator: nowhere do fewer metres
   * northward make a degree.
   */
  private static final double SMALLEST_MERIDIAN_RADIUS_M = 6_335_439.0;

  /** Covers the rounding of the arithmetic here, a thousand times over. */
  private static final double MARGIN = 1.0 + 1e-9;

  private static final double MARGIN_DEG = 1e-9;

  /**
   * The boxes around a place: two when the antimeridian lies between.
   *
   * @param centre the place
   * @param radiusM metres, 0 or more
   * @return one or two boxes
   */
  static List<SearchBox> around(GeoPoint centre, double radiusM) {
    if (!(radiusM >= 0)) {
      throw new IllegalArgumentException("expected a distance of 0 m or more, found " + radiusM);
    }
    double reachDeg = degrees(radiusM / SMALLEST_MERIDIAN_RADIUS_M);
    double south = centre.latitudeDeg() - reachDeg;
    double north = centre.latitudeDeg() + reachDeg;
    double farthestFromEquatorDeg = Math.max(Math.abs(south), Math.abs(north));
    if (farthestFromEquatorDeg >= 90.0) {
      return List.of(allRound(south, north));
    }
    // Along the way a metre eastward turns by at most 1 / (a cos latitude), because the radius of
    // curvature in the prime vertical is nowhere smaller than a.
    double turnDeg =
        degrees(radiusM / (EQUATORIAL_RADIUS_M * Math.cos(Math.toRadians(farthestFromEquatorDeg))));
    if (turnDeg >= 179.0) {
      return List.of(allRound(south, north));
    }
    double west = centre.longitudeDeg() - turnDeg;
    double east = centre.longitudeDeg() + turnDeg;
    if (west <= -180.0) {
      return List.of(
          new SearchBox(-180.0, east, south, north),
          new SearchBox(west + 360.0, 180.0, south, north));
    }
    if (east >= 180.0) {
      return List.of(
          new SearchBox(west, 180.0, south, north),
          new SearchBox(-180.0, east - 360.0, south, north));
    }
    return List.of(new SearchBox(west, east, south, north));
  }

  boolean holds(GeoPoint place) {
    return place.latitudeDeg() >= southDeg
        && place.latitudeDeg() <= northDeg
        && place.longitudeDeg() >= westDeg
        && place.longitudeDeg() <= eastDeg;
  }

  /**
   * The box around another one; all longitudes when the antimeridian comes near.
   *
   * @param inner the box to go around
   * @param radiusM metres, 0 or more
   * @return one box
   */
  static SearchBox around(MapBox inner, double radiusM) {
    List<SearchBox> corners = new ArrayList<>();
    for (double latitudeDeg : new double[] {inner.southDeg(), inner.northDeg()}) {
      for (double longitudeDeg : new double[] {inner.westDeg(), inner.eastDeg()}) {
        corners.addAll(around(new GeoPoint(latitudeDeg, longitudeDeg), radiusM));
      }
    }
    double south = corners.stream().mapToDouble(SearchBox::southDeg).min().orElseThrow();
    double north = corners.stream().mapToDouble(SearchBox::northDeg).max().orElseThrow();
    if (corners.size() > 4) {
      return allRound(south, north);
    }
    return new SearchBox(
        corners.stream().mapToDouble(SearchBox::westDeg).min().orElseThrow(),
        corners.stream().mapToDouble(SearchBox::eastDeg).max().orElseThrow(),
        south,
        north);
  }

  private static SearchBox allRound(double south, double north) {
    return new SearchBox(-180.0, 180.0, Math.max(-90.0, south), Math.min(90.0, north));
  }

  private static double degrees(double radians) {
    return Math.toDegrees(radians) * MARGIN + MARGIN_DEG;
  }
}
