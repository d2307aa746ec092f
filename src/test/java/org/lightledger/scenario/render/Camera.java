package org.lightledger.scenario.render;

/**
 * A thin-lens camera. Focal lengths are those of a 36 mm x 24 mm frame; the frame's long side spans
 * the picture's long side.
 */
public final class Camera {
  private static final double FRAME_LONG_MM = 36;

  private final Vec3 place;
  private final Vec3 ahead;
  private final Vec3 right;
  private final Vec3 up;
  private final int width;
  private final int height;
  private final double pixelTangent;
  private final double lensRadiusM;
  private final double focusM;

  /**
   * A camera.
   *
   * @param place where the lens is, metres
   * @param facingDeg true bearing it looks along
   * @param pitchDeg how far it looks up
   * @param focalMm focal length on the 36 mm frame
   * @param fNumber relative aperture
   * @param focusM distance in focus, metres
   * @param width picture's width, pixels
   * @param height picture's height, pixels
   */
  public Camera(
      Vec3 place,
      double facingDeg,
      double pitchDeg,
      double focalMm,
      double fNumber,
      double focusM,
      int width,
      int height) {
    this.place = place;
    this.width = width;
    this.height = height;
    this.focusM = focusM;
    ahead = Vec3.towards(facingDeg, pitchDeg);
    right = ahead.cross(Vec3.UP).unit();
    up = right.cross(ahead);
    pixelTangent = FRAME_LONG_MM / focalMm / Math.max(width, height);
    lensRadiusM = focalMm / 1000 / fNumber / 2;
  }

  int width() {
    return width;
  }

  int height() {
    return height;
  }

  Vec3 place() {
    return place;
  }

  /** The direction through a place in the picture, pixels from its upper left corner. */
  Vec3 direction(double x, double y) {
    return ahead
        .plus(right.times((x - width / 2.0) * pixelTangent))
        .plus(up.times((height / 2.0 - y) * pixelTangent))
        .unit();
  }

  /** Where on the lens a ray starts, for two numbers in [0, 1). */
  Vec3 lens(double a, double b) {
    double radius = lensRadiusM * Math.sqrt(a);
    double angle = 2 * Math.PI * b;
    return place
        .plus(right.times(radius * Math.cos(angle)))
        .plus(up.times(radius * Math.sin(angle)));
  }

  /** The direction from a place on the lens that meets a given direction in the plane of focus. */
  Vec3 bent(Vec3 onLens, Vec3 direction) {
    Vec3 focus = place.plus(direction.times(focusM / direction.dot(ahead)));
    return focus.minus(onLens).unit();
  }

  /** Radians that one pixel spans in the middle of the picture. */
  double pixelRad() {
    return pixelTangent;
  }

  /**
   * Where a direction falls in the picture.
   *
   * @param direction a unit direction from the camera
   * @return x and y in pixels from the upper left corner, or an empty array behind the camera
   */
  public double[] project(Vec3 direction) {
    double depth = direction.dot(ahead);
    if (depth <= 1e-6) {
      return new double[0];
    }
    return new double[] {
      width / 2.0 + direction.dot(right) / depth / pixelTangent,
      height / 2.0 - direction.dot(up) / depth / pixelTangent
    };
  }

  /** Whether a direction falls inside the picture. */
  public boolean sees(Vec3 direction) {
    double[] p = project(direction);
    return p.length == 2 && p[0] >= 0 && p[0] < width && p[1] >= 0 && p[1] < height;
  }
}
