package org.lightledger.skyline.terrain;

import java.util.List;
import java.util.function.ToDoubleFunction;
import org.lightledger.geo.GeoPoint;

/** Elevation surfaces made from formulas: posts an arc second apart, as exact as floats are. */
final class TestLand {
  static final int CELLS_PER_DEGREE = 3600;
  private static final int CHUNK_CELLS = 120;

  private TestLand() {}

  /** A surface over a rectangle of the earth; a height of NaN makes a void post. */
  static ElevationSurface over(
      double south, double west, double north, double east, ToDoubleFunction<GeoPoint> heightM) {
    PostCache cache = new PostCache(1L << 30);
    return new ElevationSurface(
        List.of(lattice(cache, CELLS_PER_DEGREE, south, west, north, east, heightM)), cache);
  }

  static Lattice lattice(
      PostCache cache,
      int cellsPerDegree,
      double south,
      double west,
      double north,
      double east,
      ToDoubleFunction<GeoPoint> heightM) {
    GridMapping mapping = HgtFile.mapping(cellsPerDegree);
    Lattice lattice =
        new Lattice(
            mapping, CHUNK_CELLS, 111_200.0 / cellsPerDegree, 360 * cellsPerDegree / CHUNK_CELLS);
    double[] corners = new double[4];
    mapping.toGrid(new double[] {north, west, south, east}, corners, 2);
    for (int row = (int) Math.floor(corners[1] / CHUNK_CELLS);
        row * CHUNK_CELLS < corners[3];
        row++) {
      for (int col = (int) Math.floor(corners[0] / CHUNK_CELLS);
          col * CHUNK_CELLS < corners[2];
          col++) {
        int chunkCol = col;
        int chunkRow = row;
        lattice.put(
            col,
            row,
            new Chunk(
                CHUNK_CELLS, () -> posts(cellsPerDegree, chunkCol, chunkRow, heightM), cache));
      }
    }
    return lattice;
  }

  private static Posts posts(
      int cellsPerDegree, int chunkCol, int chunkRow, ToDoubleFunction<GeoPoint> heightM) {
    int side = CHUNK_CELLS + 1;
    float[] heights = new float[side * side];
    for (int row = 0; row < side; row++) {
      for (int col = 0; col < side; col++) {
        double latitude = 90.0 - (double) (chunkRow * CHUNK_CELLS + row) / cellsPerDegree;
        double longitude = (double) (chunkCol * CHUNK_CELLS + col) / cellsPerDegree - 180.0;
        heights[row * side + col] =
            (float)
                heightM.applyAsDouble(new GeoPoint(latitude, Math.IEEEremainder(longitude, 360.0)));
      }
    }
    return new Posts.Exact(side, heights);
  }
}
