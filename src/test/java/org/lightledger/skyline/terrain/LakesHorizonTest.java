package org.lightledger.skyline.terrain;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import org.apache.sis.referencing.CRS;
import org.apache.sis.referencing.CommonCRS;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.skyline.LineOfSight;
import org.lightledger.testing.Reference;
import org.opengis.referencing.operation.MathTransform;
import org.opengis.referencing.operation.TransformException;
import org.opengis.util.FactoryException;

/**
 * Against other methods on one projected grid, with the eye on the ground. The methods by fine
 * samples count their azimuths from grid north, GRASS r.horizon from true north, which here lies
 * 1.2 degrees east of it.
 */
class LakesHorizonTest {
  private static final int COLS = 156;
  private static final int ROWS = 168;
  private static final double CELL_M = 50.0;
  private static final TerrainOptions OPTIONS =
      new TerrainOptions(0.001, new LineOfSight(0.0), 12_000.0, 12_000.0, 0.0);

  private final ElevationSurface surface;
  private final MathTransform toPlace;
  private final double[][] heights = new double[ROWS][COLS];

  LakesHorizonTest() throws IOException, FactoryException, TransformException {
    ElevationSurface.Opened opened =
        ElevationSurface.open(List.of(Reference.path("terrain/lakes.tif")), 1L << 24);
    assertThat(opened.problems()).isEmpty();
    surface = opened.surface();
    toPlace =
        CRS.findOperation(
                CommonCRS.WGS84.universal(37.6, -119.0), CommonCRS.WGS84.geographic(), null)
            .getMathTransform();
    List<String> lines = Files.readAllLines(Reference.path("terrain/lakes-dem.asc"));
    for (int row = 0; row < ROWS; row++) {
      String[] values = lines.get(6 + row).strip().split(" +", -1);
      for (int col = 0; col < COLS; col++) {
        heights[row][col] = Double.parseDouble(values[col]);
      }
    }
  }

  private GeoPoint place(double easting, double northing) throws TransformException {
    double[] place = {easting, northing};
    toPlace.transform(place, 0, place, 0, 1);
    return new GeoPoint(place[0], place[1]);
  }

  /** A row of the table, which counts azimuths from one north, beside what was found. */
  private record Row(Map<String, String> row, double gridDeg, double foundDeg, double foundM) {
    double number(String column) {
      return Double.parseDouble(row.get(column));
    }
  }

  private List<Row> rows(boolean fromTrueNorth) throws TransformException {
    List<Row> rows = new ArrayList<>();
    for (Map<String, String> row : Reference.csv("terrain/lakes-horizons.csv")) {
      double easting = Double.parseDouble(row.get("easting_utm11n"));
      double northing = Double.parseDouble(row.get("northing_utm11n"));
      double countedDeg = Double.parseDouble(row.get("compass_azimuth_deg"));
      GeoPoint place = place(easting, northing);
      double gridNorthDeg = Geodesy.bearing(place, place(easting, northing + 1000.0)).trueDeg();
      double trueDeg = fromTrueNorth ? countedDeg : countedDeg + gridNorthDeg;
      double eyeM = surface.groundM(place).orElseThrow() + OPTIONS.eyeHeightM();
      Lookout lookout = new Lookout(surface, place, eyeM, OPTIONS);
      lookout.look(trueDeg);
      rows.add(new Row(row, trueDeg - gridNorthDeg, lookout.altitudeDeg(), lookout.distanceM()));
    }
    assertThat(rows).hasSize(1440);
    return rows;
  }

  @Test
  void theGeoTiffIsTheAsciiGrid() throws TransformException {
    for (int row = 1; row < ROWS - 1; row += 7) {
      for (int col = 1; col < COLS - 1; col += 5) {
        GeoPoint post = place(320_000 + col * CELL_M, 4_166_650 - row * CELL_M);
        assertThat(surface.groundM(post).orElseThrow()).isEqualTo(heights[row][col], within(0.01));
      }
    }
  }

  @Test
  void gridNorthIsNotTrueNorth() throws TransformException {
    GeoPoint middle = place(323_900, 4_162_500);
    double convergenceDeg =
        Geodesy.bearing(middle, place(323_900, 4_163_500)).turnToDeg(new Bearing(0.0));

    assertThat(convergenceDeg).isEqualTo(1.218, within(0.01));
  }

  /** Bilinear samples a quarter of a cell apart, which never see below the level. */
  @Test
  void agreesWithFineSamples() throws TransformException {
    List<Double> differences = new ArrayList<>();
    for (Row row : rows(false)) {
      double samples = row.number("bilinear_quartercell_elev_deg");
      if (samples > 0.0 && row.foundM > 300.0) {
        differences.add(Math.abs(row.foundDeg - samples));
      }
    }
    Collections.sort(differences);

    assertThat(differences).hasSizeGreaterThan(700);
    assertThat(part(differences, 0.5)).isLessThan(0.03);
    assertThat(part(differences, 0.99)).isLessThan(0.3);
  }

  /**
   * r.horizon does not interpolate: at steps of a cell it takes the height of the nearest post, up
   * to 35 metres aside, and counts the distance to that post. Done the same way our grid gives its
   * figures; the bilinear surface differs by what lies between posts.
   */
  @Test
  void theDistanceFromGrassIsItsNearestPost() throws TransformException {
    List<Double> bilinear = new ArrayList<>();
    List<Double> nearest = new ArrayList<>();
    for (Row row : rows(true)) {
      double grassDeg = row.number("grass_r_horizon_deg");
      nearest.add(Math.abs(nearestPostDeg(row) - grassDeg));
      if (row.foundM > 1000.0) {
        bilinear.add(Math.abs(row.foundDeg - grassDeg));
      }
    }
    Collections.sort(bilinear);
    Collections.sort(nearest);

    assertThat(part(nearest, 0.9)).isLessThan(0.001);
    assertThat(part(bilinear, 0.5)).isLessThan(0.06);
    assertThat(part(bilinear, 0.9)).isLessThan(0.35);
  }

  private double nearestPostDeg(Row row) {
    int col0 = (int) row.number("col");
    int row0 = (int) row.number("row");
    double azimuth = Math.toRadians(row.gridDeg);
    double best = Double.NEGATIVE_INFINITY;
    for (int step = 1; ; step++) {
      int col = (int) Math.floor(col0 + step * Math.sin(azimuth) + 0.5);
      int down = (int) Math.floor(row0 - step * Math.cos(azimuth) + 0.5);
      if (col < 0 || col >= COLS || down < 0 || down >= ROWS) {
        return Math.toDegrees(Math.atan(best));
      }
      double distanceM = CELL_M * Math.hypot(col - col0, down - row0);
      double drop = distanceM * distanceM * new LineOfSight(0.0).dropPerM2();
      best = Math.max(best, (heights[down][col] - heights[row0][col0] - drop) / distanceM);
    }
  }

  private static double part(List<Double> sorted, double part) {
    return sorted.get((int) (part * (sorted.size() - 1)));
  }
}
