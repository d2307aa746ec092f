package org.lightledger.skyline.terrain;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import net.sf.geographiclib.GeodesicLine;
import net.sf.geographiclib.GeodesicMask;
import org.lightledger.geo.GeoPoint;

/**
 * Where the rays from one place run on a lattice: nodes on the geodesic so close together that the
 * straight line between them, in columns and rows, stays within {@value #CHORD_BOUND_M} metres of
 * it.
 *
 * <p>GeographicLib and the lattice's mapping are asked only every {@value #KNOT_M} metres; the
 * nodes between follow from cubics through four knots. Their error grows with the fourth power of
 * the tangent of latitude: 0.0001 metres at 45 degrees, 0.2 at 85.
 *
 * <p>Not for use by several threads at once: one ray overwrites the one before.
 */
final class RayPath {
  static final double CHORD_BOUND_M = 0.02;
  private static final double KNOT_M = 12_500.0;
  private static final double LONGEST_STEP_M = 5_000.0;
  private static final double EARTH_RADIUS_M = 6_371_009.0;
  private static final double WORST_BEARING = 1.089;
  private static final double HIGHEST_LATITUDE_DEG = 85.0;
  private static final int MASK =
      GeodesicMask.LATITUDE
          | GeodesicMask.LONGITUDE
          | GeodesicMask.DISTANCE_IN
          | GeodesicMask.LONG_UNROLL;

  private final GeoPoint place;
  private final int knots;
  private final double knotM;
  private final double[] latLon;
  private final double[] colRow;
  private final int nodesPerKnot;

  /** How many nodes a ray has, the place itself among them. */
  final int nodes;

  /** Metres from the place to each node. */
  final double[] distanceM;

  RayPath(GeoPoint place, double reachM) {
    if (!(Math.abs(place.latitudeDeg()) <= HIGHEST_LATITUDE_DEG)) {
      throw new IllegalArgumentException(
          "expected a latitude in [-85, 85] degrees for a terrain skyline, found "
              + place.latitudeDeg());
    }
    this.place = place;
    int spans = Math.max(3, (int) Math.ceil(reachM / KNOT_M));
    knots = spans + 1;
    knotM = reachM / spans;
    latLon = new double[2 * knots];
    colRow = new double[2 * knots];
    nodesPerKnot = (int) Math.ceil(knotM / stepM(place, reachM));
    nodes = spans * nodesPerKnot + 1;
    distanceM = new double[nodes];
    for (int node = 0; node < nodes; node++) {
      distanceM[node] = knotM * node / nodesPerKnot;
    }
  }

  /**
   * A geodesic of bearing a leaves the straight line in latitude and longitude by d² tan(latitude)
   * sin(a) (1 + cos²(a)) / 2R, at most 1.089 times what it does due east; a chord by a fourth.
   */
  private static double stepM(GeoPoint place, double reachM) {
    double poleward = Math.toRadians(Math.abs(place.latitudeDeg())) + reachM / EARTH_RADIUS_M;
    double bend = WORST_BEARING * Math.tan(poleward) / EARTH_RADIUS_M;
    return Math.min(LONGEST_STEP_M, Math.sqrt(8.0 * CHORD_BOUND_M / bend));
  }

  /** Asks where a ray runs; each lattice is then served by {@link #onto}. */
  void turnTo(double azimuthDeg) {
    GeodesicLine line =
        Geodesic.WGS84.Line(place.latitudeDeg(), place.longitudeDeg(), azimuthDeg, MASK);
    latLon[0] = place.latitudeDeg();
    latLon[1] = place.longitudeDeg();
    for (int knot = 1; knot < knots; knot++) {
      GeodesicData at = line.Position(knotM * knot, MASK);
      latLon[2 * knot] = at.lat2;
      latLon[2 * knot + 1] = at.lon2;
    }
  }

  /** Fills the columns and rows of all nodes on a lattice. */
  void onto(GridMapping mapping, double[] cols, double[] rows) {
    mapping.toGrid(latLon, colRow, knots);
    for (int span = 0; span + 1 < knots; span++) {
      int first = Math.max(0, Math.min(knots - 4, span - 1));
      for (int i = 0; i < nodesPerKnot; i++) {
        interpolate(
            first, span - first + (double) i / nodesPerKnot, span * nodesPerKnot + i, cols, rows);
      }
    }
    cols[nodes - 1] = colRow[2 * knots - 2];
    rows[nodes - 1] = colRow[2 * knots - 1];
  }

  private void interpolate(int first, double u, int node, double[] cols, double[] rows) {
    double a = -(u - 1.0) * (u - 2.0) * (u - 3.0) / 6.0;
    double b = u * (u - 2.0) * (u - 3.0) / 2.0;
    double c = -u * (u - 1.0) * (u - 3.0) / 2.0;
    double d = u * (u - 1.0) * (u - 2.0) / 6.0;
    int at = 2 * first;
    cols[node] = a * colRow[at] + b * colRow[at + 2] + c * colRow[at + 4] + d * colRow[at + 6];
    rows[node] = a * colRow[at + 1] + b * colRow[at + 3] + c * colRow[at + 5] + d * colRow[at + 7];
  }
}
