package org.lightledger.skyline.buildings;

import org.lightledger.geo.GeoPoint;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.util.AffineTransformation;
import org.locationtech.jts.operation.buffer.BufferOp;
import org.locationtech.jts.operation.buffer.BufferParameters;

/** The ground that crowns of trees cover. */
public final class Crowns {
  /** The width of a tree row where none is given, metres: own choice, a grown crown. */
  public static final double ROW_WIDTH_M = 6.0;

  /** The width of a single tree's crown where none is given, metres: own choice, as in a row. */
  public static final double TREE_WIDTH_M = 6.0;

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
    BufferParameters flat =
        new BufferParameters(
            BufferParameters.DEFAULT_QUADRANT_SEGMENTS,
            BufferParameters.CAP_FLAT,
            BufferParameters.JOIN_MITRE,
            BufferParameters.DEFAULT_MITRE_LIMIT);
    return grown(line, widthM, flat);
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

  private static Geometry grown(Geometry middle, double widthM, BufferParameters how) {
    if (!(widthM > 0.0 && widthM <= Heights.HIGHEST_M)) {
      throw new IllegalArgumentException("expected a width in (0, 1000] metres, found " + widthM);
    }
    double east =
        METRES_PER_DEGREE * Math.cos(Math.toRadians(middle.getEnvelopeInternal().centre().y));
    Geometry metres = AffineTransformation.scaleInstance(east, METRES_PER_DEGREE).transform(middle);
    Geometry grown = BufferOp.bufferOp(metres, widthM / 2.0, how);
    return AffineTransformation.scaleInstance(1.0 / east, 1.0 / METRES_PER_DEGREE).transform(grown);
  }
}
