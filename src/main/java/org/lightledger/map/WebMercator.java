package org.lightledger.map;

/**
 * The projection of the web's map tiles (EPSG:3857): a square of the world from 85.0511° S to N,
 * cut into 2^zoom by 2^zoom tiles, x from west to east, y from north to south.
 */
public final class WebMercator {
  /** Where the square ends: atan(sinh(π)), degrees. */
  public static final double NORTHERNMOST_DEG = Math.toDegrees(Math.atan(Math.sinh(Math.PI)));

  /** The side of a tile, in pixels of the page. */
  public static final int TILE_PX = 256;

  private WebMercator() {}

  /**
   * How far east a longitude lies in the square.
   *
   * @param longitudeDeg degrees
   * @return 0 at 180° W, 1 at 180° E
   */
  public static double x(double longitudeDeg) {
    return longitudeDeg / 360.0 + 0.5;
  }

  /**
   * How far south a latitude lies in the square.
   *
   * @param latitudeDeg degrees; beyond the square it is taken as its edge
   * @return 0 at the northern edge, 1 at the southern
   */
  public static double y(double latitudeDeg) {
    double inside = Math.max(-NORTHERNMOST_DEG, Math.min(NORTHERNMOST_DEG, latitudeDeg));
    double sine = Math.sin(Math.toRadians(inside));
    return 0.5 - Math.log((1.0 + sine) / (1.0 - sine)) / (4.0 * Math.PI);
  }

  /**
   * The longitude of a place in the square.
   *
   * @param x in [0, 1]
   * @return degrees
   */
  public static double longitudeDeg(double x) {
    return (x - 0.5) * 360.0;
  }

  /**
   * The latitude of a place in the square.
   *
   * @param y in [0, 1]
   * @return degrees
   */
  public static double latitudeDeg(double y) {
    return Math.toDegrees(Math.atan(Math.sinh(Math.PI * (1.0 - 2.0 * y))));
  }

  /**
   * The square's side at a zoom.
   *
   * @param zoom of the tiles
   * @return pixels of the page
   */
  public static double worldPx(double zoom) {
    return TILE_PX * Math.pow(2.0, zoom);
  }
}
