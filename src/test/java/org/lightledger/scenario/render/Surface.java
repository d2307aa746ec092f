package org.lightledger.scenario.render;

/** What a triangle is made of. */
enum Surface {
  GROUND,
  WATER,
  PLASTER,
  STONE,
  ASHLAR,
  ROOF,
  WOOD,
  SHUTTER,
  GLASS,
  IRON,
  BARK,
  LEAF_BROAD,
  LEAF_POPLAR,
  LEAF_WILLOW,
  LEAF_EVERGREEN,
  LEAF_FRUIT,
  BLOSSOM,
  GRASS,
  DRY_GRASS,
  WHEAT,
  REED,
  PLUME,
  FLOWER,
  SKIN,
  HAIR,
  CLOTH,
  DARK_CLOTH,
  PLAIN;

  private static final Surface[] ALL = values();

  static Surface of(int ordinal) {
    return ALL[ordinal];
  }

  /** Thin blades that light passes through, whose normals say nothing about a wider surface. */
  boolean isFoliage() {
    return ordinal() >= LEAF_BROAD.ordinal() && ordinal() <= FLOWER.ordinal();
  }

  boolean isFigure() {
    return this == SKIN || this == HAIR || this == CLOTH || this == DARK_CLOTH;
  }
}
