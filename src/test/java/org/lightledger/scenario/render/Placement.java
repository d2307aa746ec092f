package org.lightledger.scenario.render;

/**
 * A shape standing somewhere: turned about the vertical, scaled and moved.
 *
 * @param shape what stands there
 * @param origin where the shape's own origin lies, metres
 * @param turnRad counter-clockwise turn seen from above, radians
 * @param scale size relative to the shape's own, above 0
 * @param tint a repeatable number in [0, 1) that varies colours from one to the next
 */
record Placement(Shape shape, Vec3 origin, double turnRad, double scale, double tint) {
  static Placement fixed(Shape shape) {
    return new Placement(shape, Vec3.ZERO, 0, 1, 0);
  }
}
