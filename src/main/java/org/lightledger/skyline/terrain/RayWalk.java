package org.lightledger.skyline.terrain;

import org.lightledger.skyline.terrain.Chunk.State;
import org.lightledger.skyline.terrain.Chunk.Summary;

/**
 * Walks a ray over a lattice, cell by cell, for the steepest line of sight. Within a cell the
 * bilinear surface along a straight line is a parabola, whose steepest point has a closed form, so
 * that nothing between posts is missed. Chunks and blocks whose highest post stays under the line
 * of sight are passed over in one step.
 *
 * <p>Not for use by several threads at once.
 */
final class RayWalk {
  private final Sight sight;
  private boolean lastLattice;

  RayWalk(Sight sight) {
    this.sight = sight;
  }

  /**
   * Walks a stretch of the ray and adds what the lattice does not know of it to the gaps. On the
   * last lattice of a surface the first void is enough, since nothing will fill the others and the
   * nearest matters most.
   */
  void walk(
      Lattice lattice,
      double[] nodeM,
      double[] cols,
      double[] rows,
      int nodes,
      double fromM,
      double toM,
      Gaps gaps,
      boolean isLastLattice) {
    lastLattice = isLastLattice;
    for (int node = 0; node + 1 < nodes; node++) {
      double start = nodeM[node];
      double length = nodeM[node + 1] - start;
      double first = Math.max(0.0, (fromM - start) / length);
      double last = Math.min(1.0, (toM - start) / length);
      if (first < last) {
        double right = cols[node + 1] - cols[node];
        double down = rows[node + 1] - rows[node];
        if (Double.isFinite(right) && Double.isFinite(down)) {
          new Line(lattice, cols[node], rows[node], right, down, start, length, gaps)
              .walk(first, last);
        } else {
          gaps.add(start + first * length, start + last * length, true);
        }
      }
    }
  }

  /** One straight piece of the ray; the place on it is told by a part from 0 to 1. */
  private final class Line {
    private final Lattice lattice;
    private final int chunkCells;
    private final double col0;
    private final double row0;
    private final double right;
    private final double down;
    private final double start;
    private final double length;
    private final Gaps gaps;
    private int col;
    private int row;
    private double part;

    Line(
        Lattice lattice,
        double col0,
        double row0,
        double right,
        double down,
        double start,
        double length,
        Gaps gaps) {
      this.lattice = lattice;
      this.chunkCells = lattice.chunkCells();
      this.col0 = col0;
      this.row0 = row0;
      this.right = right;
      this.down = down;
      this.start = start;
      this.length = length;
      this.gaps = gaps;
    }

    void walk(double first, double last) {
      part = first;
      col = (int) Math.floor(col0 + part * right);
      row = (int) Math.floor(row0 + part * down);
      while (part < last) {
        int chunkCol = Math.floorDiv(col, chunkCells);
        int chunkRow = Math.floorDiv(row, chunkCells);
        int left = chunkCol * chunkCells;
        int top = chunkRow * chunkCells;
        Chunk chunk = lattice.chunk(chunkCol, chunkRow);
        double leaves = leaves(left, top, left + chunkCells, top + chunkCells, last);
        if (leaves <= part || chunk == null || passOver(chunk, leaves)) {
          if (chunk == null) {
            gap(leaves, true);
          }
          jump(left, top, left + chunkCells, top + chunkCells, leaves);
        } else {
          walkChunk(chunk, left, top, leaves);
        }
      }
    }

    private boolean passOver(Chunk chunk, double leaves) {
      double needed = needed(leaves);
      Summary read = chunk.summaryIfRead();
      if (read == null && needed >= Sight.HIGHEST_LAND_M) {
        return true;
      }
      Summary summary = read == null ? chunk.summary() : read;
      return passOver(summary.all(), summary.highestOfAll(), needed, leaves);
    }

    private boolean passOver(State state, float highest, double needed, double leaves) {
      switch (state) {
        case KNOWN:
          return highest <= needed;
        case ALL_VOID:
          gap(leaves, false);
          return true;
        case ALL_OUTSIDE:
          gap(leaves, true);
          return true;
        case SOME_VOID:
          return lastLattice && gaps.anyVoid() && highest <= needed;
        case SOME_OUTSIDE:
          return false;
      }
      throw new IllegalStateException("no rule for " + state);
    }

    private void walkChunk(Chunk chunk, int left, int top, double last) {
      Summary summary = chunk.summary();
      Posts posts = null;
      int end = left + chunkCells;
      int bottom = top + chunkCells;
      while (part < last && col >= left && col < end && row >= top && row < bottom) {
        int blockLeft = left + (col - left) / Chunk.BLOCK * Chunk.BLOCK;
        int blockTop = top + (row - top) / Chunk.BLOCK * Chunk.BLOCK;
        int blockEnd = Math.min(end, blockLeft + Chunk.BLOCK);
        int blockBottom = Math.min(bottom, blockTop + Chunk.BLOCK);
        double leaves = leaves(blockLeft, blockTop, blockEnd, blockBottom, last);
        int block = summary.block(col - left, row - top);
        if (passOver(summary.states()[block], summary.highest()[block], needed(leaves), leaves)) {
          jump(blockLeft, blockTop, blockEnd, blockBottom, leaves);
        } else {
          posts = posts == null ? chunk.posts() : posts;
          walkBlock(posts, left, top, blockLeft, blockTop, blockEnd, blockBottom, last);
        }
      }
    }

    private void walkBlock(
        Posts posts,
        int left,
        int top,
        int blockLeft,
        int blockTop,
        int blockEnd,
        int blockBottom,
        double last) {
      int side = posts.side;
      while (part < last
          && col >= blockLeft
          && col < blockEnd
          && row >= blockTop
          && row < blockBottom) {
        double leavesAside = aside(right > 0.0 ? col + 1 : col);
        double leavesAlong = along(down > 0.0 ? row + 1 : row);
        double leaves = Math.max(part, Math.min(last, Math.min(leavesAside, leavesAlong)));
        int at = (row - top) * side + col - left;
        cell(posts.at(at), posts.at(at + 1), posts.at(at + side), posts.at(at + side + 1), leaves);
        part = leaves;
        if (leavesAside <= leavesAlong) {
          col += right > 0.0 ? 1 : -1;
        } else {
          row += down > 0.0 ? 1 : -1;
        }
      }
    }

    private void cell(float nw, float ne, float sw, float se, double leaves) {
      double highest = Math.max(Math.max(nw, ne), Math.max(sw, se));
      double inM = start + part * length;
      double outM = start + leaves * length;
      if (!(Math.abs(nw + ne + sw + se) <= Float.MAX_VALUE)) {
        boolean isOutside =
            nw == Posts.OUTSIDE
                || ne == Posts.OUTSIDE
                || sw == Posts.OUTSIDE
                || se == Posts.OUTSIDE;
        gaps.add(inM, outM, isOutside);
      } else if (highest > sight.neededM(inM, outM)) {
        double x = unit(col0 + part * right - col);
        double y = unit(row0 + part * down - row);
        double dx = unit(col0 + leaves * right - col) - x;
        double dy = unit(row0 + leaves * down - row) - y;
        double twist = (double) nw - ne - sw + se;
        double toEast = (double) ne - nw + twist * y;
        double toSouth = (double) sw - nw + twist * x;
        double heightIn = nw + ((double) ne - nw) * x + ((double) sw - nw) * y + twist * x * y;
        sight.considerParabola(inM, outM, heightIn, toEast * dx + toSouth * dy, twist * dx * dy);
      }
    }

    private double needed(double leaves) {
      return sight.neededM(start + part * length, start + leaves * length);
    }

    private void gap(double leaves, boolean isOutside) {
      gaps.add(start + part * length, start + leaves * length, isOutside);
    }

    /** Where the line leaves a rectangle of cells, but not before it is now. */
    private double leaves(int left, int top, int end, int bottom, double last) {
      double side = aside(right > 0.0 ? end : left);
      double end2 = along(down > 0.0 ? bottom : top);
      return Math.max(part, Math.min(last, Math.min(side, end2)));
    }

    /** Goes on behind a rectangle of cells. */
    private void jump(int left, int top, int end, int bottom, double leaves) {
      double side = aside(right > 0.0 ? end : left);
      double end2 = along(down > 0.0 ? bottom : top);
      part = leaves;
      int colNow = (int) Math.floor(col0 + part * right);
      int rowNow = (int) Math.floor(row0 + part * down);
      col = Math.max(left, Math.min(end - 1, colNow));
      row = Math.max(top, Math.min(bottom - 1, rowNow));
      if (side <= end2) {
        col = right > 0.0 ? end : left - 1;
      } else {
        row = down > 0.0 ? bottom : top - 1;
      }
    }

    /** The part at which the line crosses a line of posts that runs north. */
    private double aside(int postCol) {
      return right == 0.0 ? Double.POSITIVE_INFINITY : (postCol - col0) / right;
    }

    /** The part at which the line crosses a line of posts that runs east. */
    private double along(int postRow) {
      return down == 0.0 ? Double.POSITIVE_INFINITY : (postRow - row0) / down;
    }

    private static double unit(double value) {
      return Math.max(0.0, Math.min(1.0, value));
    }
  }
}
