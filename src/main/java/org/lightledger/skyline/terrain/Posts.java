package org.lightledger.skyline.terrain;

/**
 * The heights of a square of posts, row by row from the north, one post more than cells on each
 * side. Immutable once filled.
 */
abstract class Posts {
  /** Stands for a post that no file covers. */
  static final float OUTSIDE = Float.NEGATIVE_INFINITY;

  /** Stands for a post without a height. */
  static final float VOID = Float.NaN;

  final int side;

  Posts(int side) {
    this.side = side;
  }

  /** The height in metres, or {@link #VOID}, or {@link #OUTSIDE}. */
  abstract float at(int index);

  abstract long bytes();

  /** Whole metres, as in .hgt files. */
  static final class Whole extends Posts {
    /** The mark of a void post (USGS, SRTM Topography documentation 2.1). */
    static final short VOID_MARK = Short.MIN_VALUE;

    private final short[] heights;

    Whole(int side, short[] heights) {
      super(side);
      this.heights = heights;
    }

    @Override
    float at(int index) {
      short height = heights[index];
      return height == VOID_MARK ? VOID : height;
    }

    @Override
    long bytes() {
      return (long) heights.length * Short.BYTES;
    }
  }

  /** Metres with fractions. */
  static final class Exact extends Posts {
    private final float[] heights;

    Exact(int side, float[] heights) {
      super(side);
      this.heights = heights;
    }

    @Override
    float at(int index) {
      return heights[index];
    }

    @Override
    long bytes() {
      return (long) heights.length * Float.BYTES;
    }
  }
}
