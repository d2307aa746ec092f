package org.lightledger.skyline.terrain;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.sis.referencing.operation.transform.MathTransforms;
import org.apache.sis.util.Utilities;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.opengis.referencing.crs.GeographicCRS;
import org.opengis.referencing.operation.MathTransform;
import org.opengis.referencing.operation.TransformException;

/**
 * Joins GeoTIFFs whose posts fall on the same lattice, so that the cells between the last posts of
 * one and the first of the next belong to the surface too.
 */
final class GeoTiffLattices {
  /** Cells on a side of a chunk: own choice, a megabyte of heights. */
  static final int CHUNK_CELLS = 512;

  /** Posts of two files are the same when closer than this part of a cell: own choice. */
  private static final double SAME_POST = 0.01;

  private final PostCache cache;
  private final List<Joined> joined = new ArrayList<>();

  GeoTiffLattices(PostCache cache) {
    this.cache = cache;
  }

  /** Files on the lattice of the first. */
  private record Joined(GeoTiffFile first, List<Placed> files) {}

  /** A file with the column and row of its first post on its lattice. */
  private record Placed(GeoTiffFile file, int col, int row) {}

  void add(GeoTiffFile file) throws ElevationFileException {
    try {
      for (Joined lattice : joined) {
        Placed placed = place(file, lattice.first);
        if (placed != null) {
          lattice.files.add(placed);
          return;
        }
      }
    } catch (TransformException e) {
      throw new ElevationFileException(
          file.file().getFileName() + ": its posts can not be placed on the earth", e);
    }
    joined.add(new Joined(file, new ArrayList<>(List.of(new Placed(file, 0, 0)))));
  }

  private static @Nullable Placed place(GeoTiffFile file, GeoTiffFile first)
      throws TransformException {
    if (!Utilities.equalsIgnoreMetadata(file.system(), first.system())) {
      return null;
    }
    MathTransform toFirst =
        MathTransforms.concatenate(file.gridToSystem(), first.gridToSystem().inverse());
    double[] corners = {0, 0, file.cols() - 1.0, 0, 0, file.rows() - 1.0};
    double[] there = new double[6];
    toFirst.transform(corners, 0, there, 0, 3);
    long col = Math.round(there[0]);
    long row = Math.round(there[1]);
    double[] expected = {
      col, row, col + file.cols() - 1.0, row, col, row + file.rows() - 1.0,
    };
    for (int i = 0; i < there.length; i++) {
      if (!(Math.abs(there[i] - expected[i]) <= SAME_POST)) {
        return null;
      }
    }
    return new Placed(file, Math.toIntExact(col), Math.toIntExact(row));
  }

  List<Lattice> lattices() throws ElevationFileException {
    List<Lattice> lattices = new ArrayList<>();
    for (Joined group : joined) {
      try {
        lattices.add(lattice(group));
      } catch (TransformException e) {
        throw new ElevationFileException(
            group.first.file().getFileName() + ": its posts can not be placed on the earth", e);
      }
    }
    return lattices;
  }

  private Lattice lattice(Joined group) throws TransformException {
    GeoTiffFile first = group.first;
    MathTransform back = first.placeToGrid().inverse();
    GeoPoint post = place(back, first.cols() / 2, first.rows() / 2);
    GeoPoint right = place(back, first.cols() / 2 + 1, first.rows() / 2);
    GeoPoint below = place(back, first.cols() / 2, first.rows() / 2 + 1);
    double spacingM = Math.max(Geodesy.distanceM(post, right), Geodesy.distanceM(post, below));
    boolean geographic = first.system() instanceof GeographicCRS;
    Lattice lattice =
        new Lattice(
            mapping(first.placeToGrid(), geographic, post.longitudeDeg()),
            CHUNK_CELLS,
            spacingM,
            0);
    Map<List<Integer>, List<Placed>> chunks = new LinkedHashMap<>();
    for (Placed placed : group.files) {
      // A chunk shares its last posts with the next, so a file's first posts end one before.
      for (int row = Math.floorDiv(placed.row - 1, CHUNK_CELLS);
          row * CHUNK_CELLS < placed.row + placed.file.rows();
          row++) {
        for (int col = Math.floorDiv(placed.col - 1, CHUNK_CELLS);
            col * CHUNK_CELLS < placed.col + placed.file.cols();
            col++) {
          chunks.computeIfAbsent(List.of(col, row), key -> new ArrayList<>()).add(placed);
        }
      }
    }
    chunks.forEach(
        (at, files) ->
            lattice.put(
                at.get(0),
                at.get(1),
                new Chunk(CHUNK_CELLS, () -> read(at.get(0), at.get(1), files), cache)));
    return lattice;
  }

  private static GeoPoint place(MathTransform gridToPlace, double col, double row)
      throws TransformException {
    double[] place = {col, row};
    gridToPlace.transform(place, 0, place, 0, 1);
    return new GeoPoint(place[0], Math.IEEEremainder(place[1], 360.0));
  }

  private static Posts read(int chunkCol, int chunkRow, List<Placed> files) throws IOException {
    int side = CHUNK_CELLS + 1;
    float[] heights = new float[side * side];
    Arrays.fill(heights, Posts.OUTSIDE);
    int left = chunkCol * CHUNK_CELLS;
    int top = chunkRow * CHUNK_CELLS;
    for (Placed placed : files) {
      int fromCol = Math.max(left, placed.col);
      int fromRow = Math.max(top, placed.row);
      int width = Math.min(left + side, placed.col + placed.file.cols()) - fromCol;
      int height = Math.min(top + side, placed.row + placed.file.rows()) - fromRow;
      if (width > 0 && height > 0) {
        placed.file.read(
            fromCol - placed.col,
            fromRow - placed.row,
            width,
            height,
            heights,
            (fromRow - top) * side + fromCol - left,
            side);
      }
    }
    return new Posts.Exact(side, heights);
  }

  private static GridMapping mapping(
      MathTransform placeToGrid, boolean geographic, double middleLongitudeDeg) {
    return (latLonDeg, colRow, places) -> {
      System.arraycopy(latLonDeg, 0, colRow, 0, 2 * places);
      if (geographic) {
        double turnsDeg = 360.0 * Math.rint((middleLongitudeDeg - latLonDeg[1]) / 360.0);
        for (int i = 1; i < 2 * places; i += 2) {
          colRow[i] += turnsDeg;
        }
      }
      try {
        placeToGrid.transform(colRow, 0, colRow, 0, places);
      } catch (TransformException e) {
        Arrays.fill(colRow, 0, 2 * places, Double.NaN);
      }
    };
  }
}
