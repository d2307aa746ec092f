package org.lightledger.skyline.terrain;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;

class RayPathTest {
  private static final int CELLS = 3600;

  /** The bound holds for nodes and for the middle of each chord between them. */
  @ParameterizedTest
  @CsvSource({
    "0, 0, 50000, 0.021",
    "43.7, 7.4, 50000, 0.021",
    "-54.8, -68.3, 50000, 0.021",
    "43.7, 7.4, 300000, 0.021",
    "69.6, 18.9, 100000, 0.025",
    "85, 20, 50000, 0.3"
  })
  void staysOnTheGeodesic(double latitude, double longitude, double reachM, double boundM) {
    GeoPoint place = new GeoPoint(latitude, longitude);
    RayPath path = new RayPath(place, reachM);
    double[] cols = new double[path.nodes];
    double[] rows = new double[path.nodes];
    double worstM = 0.0;
    for (double azimuthDeg = 0.0; azimuthDeg < 360.0; azimuthDeg += 7.5) {
      path.turnTo(azimuthDeg);
      path.onto(HgtFile.mapping(CELLS), cols, rows);
      for (int node = 1; node < path.nodes; node++) {
        worstM =
            Math.max(worstM, offM(place, azimuthDeg, path.distanceM[node], cols[node], rows[node]));
        worstM =
            Math.max(
                worstM,
                offM(
                    place,
                    azimuthDeg,
                    (path.distanceM[node - 1] + path.distanceM[node]) / 2.0,
                    (cols[node - 1] + cols[node]) / 2.0,
                    (rows[node - 1] + rows[node]) / 2.0));
      }
    }
    assertThat(worstM).isLessThan(boundM);
  }

  private static double offM(
      GeoPoint place, double azimuthDeg, double distanceM, double col, double row) {
    GeoPoint found =
        new GeoPoint(90.0 - row / CELLS, Math.IEEEremainder(col / CELLS - 180.0, 360.0));
    return Geodesy.distanceM(found, Geodesy.destination(place, new Bearing(azimuthDeg), distanceM));
  }

  @Test
  void runsOnAcrossTheDateLine() {
    RayPath path = new RayPath(new GeoPoint(-16.8, 179.9), 30_000.0);
    double[] cols = new double[path.nodes];
    double[] rows = new double[path.nodes];
    path.turnTo(90.0);
    path.onto(HgtFile.mapping(CELLS), cols, rows);

    assertThat(cols).isSorted();
    assertThat(cols[path.nodes - 1]).isGreaterThan(360.0 * CELLS);
  }

  @Test
  void refusesThePoles() {
    assertThatThrownBy(() -> new RayPath(new GeoPoint(85.1, 0.0), 1000.0))
        .hasMessage("expected a latitude in [-85, 85] degrees for a terrain skyline, found 85.1");
  }
}
