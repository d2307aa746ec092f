package org.lightledger.scenario.render;

/** How a place on a surface answers light. Reused from place to place. */
final class Look {
  /** Share of light given back from the lit side, by channel. */
  Vec3 albedo = Vec3.ZERO;

  /** Share of light passed through to the far side, by channel. */
  Vec3 through = Vec3.ZERO;

  /** The surface's direction with its small relief, unit, on the side one looks from. */
  Vec3 normal = Vec3.UP;

  /** Strength of the mirror reflection at right angles, in [0, 1]; 0 for a dull surface. */
  double mirror;

  /** Strength of the soft gleam at grazing light that hair and cloth show. */
  double sheen;
}
