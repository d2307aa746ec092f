package org.lightledger.shot.view;

import java.util.Optional;
import org.lightledger.shot.Evidence;

/**
 * A camera as a pinhole: the optical axis meets the middle of the picture, straight lines stay
 * straight. That is true of pictures whose distortion the camera corrected, not of fisheye lenses,
 * panoramas, or pictures that were cropped.
 *
 * @param widthPx width after orientation, pixels, 1 or more
 * @param heightPx height after orientation, pixels, 1 or more
 * @param focalLengthPx distance from the pinhole to the picture, in pixels, greater than 0
 * @param focalLengthPart how much of the focal length may be wrong, either way, in [0, 1)
 */
public record PinholeCamera(
    int widthPx, int heightPx, double focalLengthPx, double focalLengthPart) {
  private static final double FILM_LONG_SIDE_MM = 36;
  private static final double FILM_SHORT_SIDE_MM = 24;

  /** The tag is a whole number of millimetres (Exif, CIPA DC-008, 4.6.5, type SHORT). */
  private static final double ROUNDING_MM = 0.5;

  /** The first Exif orientation whose rows are the picture's columns (CIPA DC-008, 4.6.4). */
  private static final int FIRST_TURNED_ORIENTATION = 5;

  /** What is made equal when a focal length is told in 35 mm equivalent. */
  public enum Equivalence {
    /**
     * The angle of view along the diagonal, 43.27 mm on film: the guideline CIPA DCG-001. The Exif
     * standard leaves it open.
     */
    DIAGONAL,
    /** The angle of view along the longer side, 36 mm on film, as some cameras have it. */
    LONG_SIDE
  }

  /**
   * Checks the camera.
   *
   * @throws IllegalArgumentException when something is out of its interval or not a number
   */
  public PinholeCamera {
    if (widthPx < 1 || heightPx < 1) {
      throw new IllegalArgumentException(
          "expected a picture of 1 pixel or more, found " + widthPx + " x " + heightPx);
    }
    if (!(focalLengthPx > 0 && focalLengthPx < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "expected a positive focal length in pixels, found " + focalLengthPx);
    }
    if (!(focalLengthPart >= 0 && focalLengthPart < 1)) {
      throw new IllegalArgumentException(
          "expected an error of the focal length in [0, 1), found " + focalLengthPart);
    }
  }

  /**
   * The camera of a picture. For pictures of 3:2, both equivalences are the same.
   *
   * @param widthPx width after orientation, pixels
   * @param heightPx height after orientation, pixels
   * @param focalLength35mmMm focal length in 35 mm equivalent, millimetres, taken as rounded to
   *     whole ones
   * @param equivalence what the 35 mm equivalent makes equal
   * @return the camera
   * @throws IllegalArgumentException when something is out of its interval or not a number
   */
  public static PinholeCamera of(
      int widthPx, int heightPx, double focalLength35mmMm, Equivalence equivalence) {
    double pixelsPerMm =
        switch (equivalence) {
          case DIAGONAL ->
              Math.hypot(widthPx, heightPx) / Math.hypot(FILM_LONG_SIDE_MM, FILM_SHORT_SIDE_MM);
          case LONG_SIDE -> Math.max(widthPx, heightPx) / FILM_LONG_SIDE_MM;
        };
    return new PinholeCamera(
        widthPx,
        heightPx,
        focalLength35mmMm * pixelsPerMm,
        Math.min(ROUNDING_MM / focalLength35mmMm, Math.nextDown(1.0)));
  }

  /**
   * The camera of a shot, by the diagonal.
   *
   * @param evidence what the file says
   * @return the camera, or nothing when the file lacks focal length or size
   */
  public static Optional<PinholeCamera> of(Evidence evidence) {
    Double focalLength = evidence.focalLength35mmMm();
    Integer width = evidence.widthPx();
    Integer height = evidence.heightPx();
    if (focalLength == null || width == null || height == null) {
      return Optional.empty();
    }
    boolean turned = isTurned(evidence);
    return Optional.of(
        of(turned ? height : width, turned ? width : height, focalLength, Equivalence.DIAGONAL));
  }

  /**
   * Whether the rows of the stored picture are the columns of the picture that is looked at.
   *
   * @param evidence what the file says
   * @return true when width and height change places
   */
  public static boolean isTurned(Evidence evidence) {
    return evidence.orientation() >= FIRST_TURNED_ORIENTATION;
  }

  /**
   * The angle of view from the left edge to the right, through the middle of the picture.
   *
   * @return degrees in (0, 180)
   */
  public double horizontalFieldDeg() {
    return 2 * Math.toDegrees(Math.atan2(widthPx / 2.0, focalLengthPx));
  }

  /**
   * The angle of view from the upper edge to the lower, through the middle of the picture.
   *
   * @return degrees in (0, 180)
   */
  public double verticalFieldDeg() {
    return 2 * Math.toDegrees(Math.atan2(heightPx / 2.0, focalLengthPx));
  }

  /**
   * Whether a place lies in the picture, its edges included.
   *
   * @param pixel the place
   * @return true when it does
   */
  public boolean contains(Pixel pixel) {
    return pixel.x() >= 0 && pixel.x() <= widthPx && pixel.y() >= 0 && pixel.y() <= heightPx;
  }

  /** A place in the picture as a ray: right and up for each unit forward. */
  Ray ray(Pixel pixel) {
    return new Ray(
        (pixel.x() - widthPx / 2.0) / focalLengthPx, (heightPx / 2.0 - pixel.y()) / focalLengthPx);
  }

  /** The place in the picture that a ray meets. */
  Pixel pixel(Ray ray) {
    return new Pixel(
        widthPx / 2.0 + ray.right() * focalLengthPx, heightPx / 2.0 - ray.up() * focalLengthPx);
  }
}
