package org.lightledger.map;

/**
 * A window on the map.
 *
 * @param zoom of the web's map tiles, 0 or more; fractions lie between
 * @param leftPx its western edge, pixels from 180° W at that zoom
 * @param topPx its northern edge, pixels from the northern edge of the square
 * @param widthPx how wide, pixels, 1 or more
 * @param heightPx how high, pixels, 1 or more
 */
public record MapView(double zoom, double leftPx, double topPx, int widthPx, int heightPx) {
  private static final double DEEPEST_ZOOM = 24.0;

  /**
   * Checks the window.
   *
   * @throws IllegalArgumentException when a number is out of its interval
   */
  public MapView {
    if (!(zoom >= 0.0 && zoom <= DEEPEST_ZOOM)) {
      throw new IllegalArgumentException("expected a zoom in [0, 24], found " + zoom);
    }
    if (widthPx < 1 || heightPx < 1 || !Double.isFinite(leftPx) || !Double.isFinite(topPx)) {
      throw new IllegalArgumentException(
          "expected a window of 1 pixel or more, found %d by %d at %s, %s"
              .formatted(widthPx, heightPx, leftPx, topPx));
    }
  }

  /**
   * The smallest window at the deepest zoom that shows a whole box.
   *
   * @param box what is to be seen
   * @param widthPx how wide the picture is, pixels
   * @param heightPx how high, pixels
   * @param deepestZoom not deeper than this, for boxes that are hardly more than a place
   * @return the window, the box in its middle
   */
  public static MapView of(MapBox box, int widthPx, int heightPx, double deepestZoom) {
    double west = WebMercator.x(box.westDeg());
    double east = WebMercator.x(box.eastDeg());
    double north = WebMercator.y(box.northDeg());
    double south = WebMercator.y(box.southDeg());
    double wideZoom = Math.log(widthPx / (east - west) / WebMercator.TILE_PX) / Math.log(2.0);
    double highZoom = Math.log(heightPx / (south - north) / WebMercator.TILE_PX) / Math.log(2.0);
    double zoom = Math.max(0.0, Math.min(deepestZoom, Math.min(wideZoom, highZoom)));
    double worldPx = WebMercator.worldPx(zoom);
    return new MapView(
        zoom,
        (west + east) / 2.0 * worldPx - widthPx / 2.0,
        (north + south) / 2.0 * worldPx - heightPx / 2.0,
        widthPx,
        heightPx);
  }

  /**
   * Tiles beside each other as one window.
   *
   * @param zoom the tiles' zoom
   * @param x the first tile's number from west
   * @param y the first tile's number from north
   * @param across how many tiles, in both directions
   * @return the window
   */
  public static MapView tiles(int zoom, int x, int y, int across) {
    int tilePx = WebMercator.TILE_PX;
    return new MapView(
        zoom, (double) x * tilePx, (double) y * tilePx, across * tilePx, across * tilePx);
  }

  /**
   * What is seen.
   *
   * @param marginPx and so much more on every side, pixels
   * @return its box, cut at the edge of the world
   */
  public MapBox box(double marginPx) {
    double worldPx = WebMercator.worldPx(zoom);
    return new MapBox(
        WebMercator.longitudeDeg(part((leftPx - marginPx) / worldPx)),
        WebMercator.latitudeDeg(part((topPx + heightPx + marginPx) / worldPx)),
        WebMercator.longitudeDeg(part((leftPx + widthPx + marginPx) / worldPx)),
        WebMercator.latitudeDeg(part((topPx - marginPx) / worldPx)));
  }

  private static double part(double value) {
    return Math.max(0.0, Math.min(1.0, value));
  }

  /**
   * Where a longitude lies.
   *
   * @param longitudeDeg degrees
   * @return pixels from the left edge
   */
  public double xPx(double longitudeDeg) {
    return WebMercator.x(longitudeDeg) * WebMercator.worldPx(zoom) - leftPx;
  }

  /**
   * Where a latitude lies.
   *
   * @param latitudeDeg degrees
   * @return pixels from the upper edge
   */
  public double yPx(double latitudeDeg) {
    return WebMercator.y(latitudeDeg) * WebMercator.worldPx(zoom) - topPx;
  }

  /**
   * How many degrees of longitude a pixel is wide.
   *
   * @return degrees
   */
  public double degreesPerPx() {
    return 360.0 / WebMercator.worldPx(zoom);
  }
}
