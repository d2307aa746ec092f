package org.lightledger.shot.view;

/**
 * A place in a picture as it is looked at, that is after its orientation was applied. The left
 * upper corner of the picture is 0, 0; the centre of the pixel in that corner is 0.5, 0.5.
 *
 * @param x to the right, pixels, finite
 * @param y downwards, pixels, finite
 */
public record Pixel(double x, double y) {
  /**
   * Checks the place.
   *
   * @throws IllegalArgumentException when a coordinate is not finite
   */
  public Pixel {
    if (!Double.isFinite(x) || !Double.isFinite(y)) {
      throw new IllegalArgumentException("expected finite pixels, found " + x + ", " + y);
    }
  }
}
