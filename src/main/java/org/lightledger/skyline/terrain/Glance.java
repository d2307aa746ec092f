package org.lightledger.skyline.terrain;

import org.jspecify.annotations.Nullable;
import org.lightledger.skyline.terrain.Chunk.Summary;

/**
 * Looks at a few points along a ray before it is walked. They lie on the surface, so the horizon is
 * at least as high as they stand, and the walk can pass over most of the land that only leads up to
 * the horizon. It changes how fast the walk is, not what it finds.
 */
final class Glance {
  private final Lattice lattice;
  private final Sight sight;
  private @Nullable Chunk chunk;
  private @Nullable Posts posts;
  private int left;
  private int top;

  Glance(Lattice lattice, Sight sight) {
    this.lattice = lattice;
    this.sight = sight;
  }

  /** Looks once in about every block. Chunks never read before stay unread. */
  void along(double[] nodeM, double[] cols, double[] rows, int nodes) {
    for (int node = 0; node + 1 < nodes; node++) {
      double right = cols[node + 1] - cols[node];
      double down = rows[node + 1] - rows[node];
      double cells = Math.max(Math.abs(right), Math.abs(down));
      if (!(cells < Integer.MAX_VALUE)) {
        return;
      }
      int looks = 1 + (int) (cells / Chunk.BLOCK);
      for (int look = 1; look <= looks; look++) {
        double part = (double) look / looks;
        at(
            cols[node] + part * right,
            rows[node] + part * down,
            nodeM[node] + part * (nodeM[node + 1] - nodeM[node]));
      }
    }
  }

  private void at(double exactCol, double exactRow, double distanceM) {
    int col = (int) Math.floor(exactCol);
    int row = (int) Math.floor(exactRow);
    Chunk here = chunkOf(col, row);
    Summary summary = here == null ? null : here.summaryIfRead();
    if (here == null || summary == null) {
      return;
    }
    int block = summary.block(col - left, row - top);
    double neededM = sight.neededM(distanceM, distanceM);
    if (summary.highestOfAll() > neededM && summary.highest()[block] > neededM) {
      Posts read = posts == null ? here.posts() : posts;
      posts = read;
      int at = (row - top) * read.side + col - left;
      double height =
          Lattice.bilinear(
              read.at(at),
              read.at(at + 1),
              read.at(at + read.side),
              read.at(at + read.side + 1),
              exactCol - col,
              exactRow - row);
      if (Double.isFinite(height)) {
        sight.consider(height, distanceM);
      }
    }
  }

  private @Nullable Chunk chunkOf(int col, int row) {
    int cells = lattice.chunkCells();
    if (chunk == null || col < left || col >= left + cells || row < top || row >= top + cells) {
      int chunkCol = Math.floorDiv(col, cells);
      int chunkRow = Math.floorDiv(row, cells);
      chunk = lattice.chunk(chunkCol, chunkRow);
      posts = null;
      left = chunkCol * cells;
      top = chunkRow * cells;
    }
    return chunk;
  }
}
