package org.lightledger.map;

import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;

/**
 * A range of longitudes and latitudes, WGS 84. One that crosses the antimeridian can not be told.
 *
 * @param westDeg smallest longitude, in [-180, 180]
 * @param southDeg smallest latitude, in [-90, 90]
 * @param eastDeg largest longitude, in [-180, 180], not less than the smallest
 * @param northDeg largest latitude, in [-90, 90], not less than the smallest
 */
public record MapBox(double westDeg, double southDeg, double eastDeg, double northDeg) {

  /**
   * Checks the box.
   *
   * @throws IllegalArgumentException when a side is out of its interval or not a number
   */
  public MapBox {
    if (!(westDeg >= -180.0 && westDeg <= eastDeg && eastDeg <= 180.0)) {
      throw new IllegalArgumentException(
          "expected -180 <= west <= east <= 180 degrees, found %s and %s"
              .formatted(westDeg, eastDeg));
    }
    if (!(southDeg >= -90.0 && southDeg <= northDeg && northDeg <= 90.0)) {
      throw new IllegalArgumentException(
          "expected -90 <= south <= north <= 90 degrees, found %s and %s"
              .formatted(southDeg, northDeg));
    }
  }

  /**
   * The smallest box around a geometry.
   *
   * @param geometry not empty, longitude before latitude
   * @return its box
   */
  public static MapBox around(Geometry geometry) {
    return of(geometry.getEnvelopeInternal());
  }

  /**
   * The same range from the geometry library.
   *
   * @param envelope not null in its own sense
   * @return the box
   */
  public static MapBox of(Envelope envelope) {
    return new MapBox(
        envelope.getMinX(), envelope.getMinY(), envelope.getMaxX(), envelope.getMaxY());
  }

  /**
   * The smallest box that holds this one and another.
   *
   * @param other any box
   * @return the box of both
   */
  public MapBox with(MapBox other) {
    return new MapBox(
        Math.min(westDeg, other.westDeg),
        Math.min(southDeg, other.southDeg),
        Math.max(eastDeg, other.eastDeg),
        Math.max(northDeg, other.northDeg));
  }

  /**
   * Whether two boxes share a place, their sides included.
   *
   * @param other any box
   * @return true when they do
   */
  public boolean meets(MapBox other) {
    return westDeg <= other.eastDeg
        && eastDeg >= other.westDeg
        && southDeg <= other.northDeg
        && northDeg >= other.southDeg;
  }

  /**
   * The same range for the geometry library.
   *
   * @return an envelope
   */
  public Envelope envelope() {
    return new Envelope(westDeg, eastDeg, southDeg, northDeg);
  }
}
