package org.lightledger.skyline.buildings;

import java.util.ArrayList;
import java.util.List;
import org.lightledger.geo.GeoPoint;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.util.AffineTransformation;
import org.locationtech.jts.linearref.LengthIndexedLine;
import org.locationtech.jts.operation.buffer.BufferOp;
import org.locationtech.jts.operation.buffer.BufferParameters;

/** The ground that crowns of trees cover. */
public final class Crowns {
  /** The width of a tree row where none is given, metres: own choice, a grown crown. */
  public static final double ROW_WIDTH_M = 6.0;

  /** The width of a single tree's crown where none is given, metres: own choice, as in a row. */
  public static final double TREE_WIDTH_M = 6.0;

  /** The longest piece of a row, metres: own choice; ground seldom falls by much within it. */
  private static final double PIECE_M = 8.0;

  /** Metres of a degree of latitude: the mean of WGS 84, exact enough for the width of a crown. */
  private static final double METRES_PER_DEGREE = 111_200.0;

  /** Corners of a round crown in a quarter: own choice, within a tenth of the radius of round. */
  private static final int CORNERS_IN_A_QUARTER = 2;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private Crowns() {}

  /**
   * A line grown to both sides; its ends are cut straight.
   *
   * @param line the middle of the row, longitude before latitude, WGS 84
   * @param widthM the width of the row, metres in (0, 1000]
   * @return the ground it covers
   * @throws IllegalArgumentException when the width is out of its interval
   */
  public static Geometry row(Geometry line, double widthM) {
    return grown(line, widthM, flatEnds());
  }

  private static BufferParameters flatEnds() {
    return new BufferParameters(
        BufferParameters.DEFAULT_QUADRANT_SEGMENTS,
        BufferParameters.CAP_FLAT,
        BufferParameters.JOIN_MITRE,
        BufferParameters.DEFAULT_MITRE_LIMIT);
  }

  /**
   * A line grown to both sides and cut into pieces, each of which has a foot of its own: a hedge or
   * a wall follows the ground, where one body would stand on its lowest corner.
   *
   * @param line the middle of the row, longitude before latitude, WGS 84
   * @param widthM the width of the row, metres in (0, 1000]
   * @return the ground that each piece covers, none longer than {@value #PIECE_M} metres
   * @throws IllegalArgumentException when the width is out of its interval
   */
  public static List<Geometry> rowInPieces(LineString line, double widthM) {
    requireWidth(widthM);
    double east =
        METRES_PER_DEGREE * Math.cos(Math.toRadians(line.getEnvelopeInternal().centre().y));
    Geometry metres = AffineTransformation.scaleInstance(east, METRES_PER_DEGREE).transform(line);
    AffineTransformation back =
        AffineTransformation.scaleInstance(1.0 / east, 1.0 / METRES_PER_DEGREE);
    LengthIndexedLine along = new LengthIndexedLine(metres);
    BufferParameters flat = flatEnds();
    int count = (int) Math.ceil(metres.getLength() / PIECE_M);
    List<Geometry> pieces = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      double fromM = metres.getLength() * i / count;
      double toM = metres.getLength() * (i + 1) / count;
      Geometry piece = BufferOp.bufferOp(along.extractLine(fromM, toM), widthM / 2.0, flat);
      pieces.add(back.transform(piece));
    }
    return pieces;
  }

  /**
   * The crown of one tree.
   *
   * @param stem where it stands
   * @param widthM the width of the crown, metres in (0, 1000]
   * @return the ground it covers
   * @throws IllegalArgumentException when the width is out of its interval
   */
  public static Geometry tree(GeoPoint stem, double widthM) {
    return grown(
        FACTORY.createPoint(new Coordinate(stem.longitudeDeg(), stem.latitudeDeg())),
        widthM,
        new BufferParameters(CORNERS_IN_A_QUARTER));
  }

  private static void requireWidth(double widthM) {
    if (!(widthM > 0.0 && widthM <= Heights.HIGHEST_M)) {
      throw new IllegalArgumentException("expected a width in (0, 1000] metres, found " + widthM);
    }
  }

  private static Geometry grown(Geometry middle, double widthM, BufferParameters how) {
    requireWidth(widthM);
    double east =
        METRES_PER_DEGREE * Math.cos(Math.toRadians(middle.getEnvelopeInternal().centre().y));
    Geometry metres = AffineTransformation.scaleInstance(east, METRES_PER_DEGREE).transform(middle);
    Geometry grown = BufferOp.bufferOp(metres, widthM / 2.0, how);
    return AffineTransformation.scaleInstance(1.0 / east, 1.0 / METRES_PER_DEGREE).transform(grown);
  }
}
