package org.lightledger.scenario.render;

/** What a ray met. Reused from ray to ray. */
final class Hit {
  double distance;
  Surface surface = Surface.GROUND;

  /** The place, metres in the scenario's frame. */
  Vec3 place = Vec3.ZERO;

  /** The place in the shape's own frame, metres. */
  Vec3 own = Vec3.ZERO;

  /** The outward flat normal, unit. */
  Vec3 flat = Vec3.UP;

  /** The outward smooth normal, unit. */
  Vec3 normal = Vec3.UP;

  /** The outward flat normal in the shape's own frame, unit. */
  Vec3 ownFlat = Vec3.UP;

  double tint;
}
