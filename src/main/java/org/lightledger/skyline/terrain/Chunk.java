package org.lightledger.skyline.terrain;

import org.jspecify.annotations.Nullable;

/**
 * A square of cells of a lattice. Its posts are read when first needed and may be dropped and read
 * again; what stays is the highest post of each block of {@value #BLOCK} by {@value #BLOCK} cells,
 * by which a ray passes over blocks that can not matter. The bound is exact, so far land costs no
 * accuracy.
 */
final class Chunk {
  /** Cells on a side of a block: own choice, the fastest of 8, 16, 32 and 64 on the test tiles. */
  static final int BLOCK = 16;

  /** The posts of a block all have heights, some do, or none does for one reason. */
  enum State {
    KNOWN,
    SOME_VOID,
    SOME_OUTSIDE,
    ALL_VOID,
    ALL_OUTSIDE
  }

  private final PostReader reader;
  private final PostCache cache;
  private final int cells;
  private volatile @Nullable Summary summary;

  Chunk(int cells, PostReader reader, PostCache cache) {
    this.cells = cells;
    this.reader = reader;
    this.cache = cache;
  }

  /** What is kept of a chunk that has been read. */
  record Summary(int blocksAcross, float[] highest, State[] states, float highestOfAll, State all) {

    int block(int col, int row) {
      return row / BLOCK * blocksAcross + col / BLOCK;
    }
  }

  int cells() {
    return cells;
  }

  Posts posts() {
    return cache.posts(this, reader);
  }

  /** What is known without reading the file: nothing before the first read. */
  @Nullable Summary summaryIfRead() {
    return summary;
  }

  Summary summary() {
    Summary known = summary;
    if (known == null) {
      known = summarize(posts());
      summary = known;
    }
    return known;
  }

  private Summary summarize(Posts posts) {
    int across = (cells + BLOCK - 1) / BLOCK;
    float[] highest = new float[across * across];
    State[] states = new State[across * across];
    Tally all = new Tally();
    for (int blockRow = 0; blockRow < across; blockRow++) {
      for (int blockCol = 0; blockCol < across; blockCol++) {
        Tally tally = new Tally();
        int lastRow = Math.min(cells, (blockRow + 1) * BLOCK);
        int lastCol = Math.min(cells, (blockCol + 1) * BLOCK);
        for (int row = blockRow * BLOCK; row <= lastRow; row++) {
          for (int col = blockCol * BLOCK; col <= lastCol; col++) {
            tally.add(posts.at(row * posts.side + col));
          }
        }
        int block = blockRow * across + blockCol;
        highest[block] = tally.highest;
        states[block] = tally.state();
        all.add(tally);
      }
    }
    return new Summary(across, highest, states, all.highest, all.state());
  }

  private static final class Tally {
    private float highest = Posts.OUTSIDE;
    private int known;
    private int voids;
    private int outside;

    void add(float height) {
      if (Float.isNaN(height)) {
        voids++;
      } else if (height == Posts.OUTSIDE) {
        outside++;
      } else {
        known++;
        highest = Math.max(highest, height);
      }
    }

    void add(Tally other) {
      highest = Math.max(highest, other.highest);
      known += other.known;
      voids += other.voids;
      outside += other.outside;
    }

    State state() {
      if (voids + outside == 0) {
        return State.KNOWN;
      }
      if (outside > 0) {
        return known + voids > 0 ? State.SOME_OUTSIDE : State.ALL_OUTSIDE;
      }
      return known > 0 ? State.SOME_VOID : State.ALL_VOID;
    }
  }
}
