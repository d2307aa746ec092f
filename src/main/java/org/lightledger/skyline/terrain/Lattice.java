package org.lightledger.skyline.terrain;

import java.util.HashMap;
import java.util.Map;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;

/**
 * Posts of one spacing in one reference system, in chunks that together are one surface. A post is
 * a point; between four posts the surface is bilinear. Filled first, then only read.
 */
final class Lattice {
  /** How many chunks go round the earth; 0 when the lattice does not. */
  private final int chunksAround;

  private final GridMapping mapping;
  private final int chunkCells;
  private final double spacingM;
  private final Map<Long, Chunk> chunks = new HashMap<>();

  Lattice(GridMapping mapping, int chunkCells, double spacingM, int chunksAround) {
    this.mapping = mapping;
    this.chunkCells = chunkCells;
    this.spacingM = spacingM;
    this.chunksAround = chunksAround;
  }

  void put(int chunkCol, int chunkRow, Chunk chunk) {
    chunks.put(key(chunkCol, chunkRow), chunk);
  }

  @Nullable Chunk chunk(int chunkCol, int chunkRow) {
    return chunks.get(key(chunkCol, chunkRow));
  }

  GridMapping mapping() {
    return mapping;
  }

  int chunkCells() {
    return chunkCells;
  }

  double spacingM() {
    return spacingM;
  }

  /** The height at a place, or nothing when one of the four posts around it has none. */
  OptionalDouble groundM(GeoPoint place) {
    double[] colRow = new double[2];
    mapping.toGrid(new double[] {place.latitudeDeg(), place.longitudeDeg()}, colRow, 1);
    if (!(Double.isFinite(colRow[0]) && Double.isFinite(colRow[1]))) {
      return OptionalDouble.empty();
    }
    OptionalDouble height = OptionalDouble.empty();
    int col = (int) Math.floor(colRow[0]);
    int row = (int) Math.floor(colRow[1]);
    // A place on a line of posts belongs to the cells on both sides, of which one may be missing.
    for (int back = 0; back < 4 && height.isEmpty(); back++) {
      int cellCol = col - (back & 1);
      int cellRow = row - (back >> 1);
      if (colRow[0] - cellCol <= 1.0 && colRow[1] - cellRow <= 1.0) {
        height = inCell(cellCol, cellRow, colRow[0] - cellCol, colRow[1] - cellRow);
      }
    }
    return height;
  }

  private OptionalDouble inCell(int col, int row, double right, double down) {
    int chunkCol = Math.floorDiv(col, chunkCells);
    int chunkRow = Math.floorDiv(row, chunkCells);
    Chunk chunk = chunk(chunkCol, chunkRow);
    if (chunk == null) {
      return OptionalDouble.empty();
    }
    Posts posts = chunk.posts();
    int at = (row - chunkRow * chunkCells) * posts.side + col - chunkCol * chunkCells;
    double height =
        bilinear(
            posts.at(at),
            posts.at(at + 1),
            posts.at(at + posts.side),
            posts.at(at + posts.side + 1),
            right,
            down);
    return Double.isFinite(height) ? OptionalDouble.of(height) : OptionalDouble.empty();
  }

  /** Between four posts, with the parts of the cell to the right and down. */
  static double bilinear(float nw, float ne, float sw, float se, double right, double down) {
    return (nw * (1.0 - right) + ne * right) * (1.0 - down)
        + (sw * (1.0 - right) + se * right) * down;
  }

  private long key(int chunkCol, int chunkRow) {
    int col = chunksAround == 0 ? chunkCol : Math.floorMod(chunkCol, chunksAround);
    return ((long) col << 32) ^ (chunkRow & 0xFFFF_FFFFL);
  }
}
