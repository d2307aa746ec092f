package org.lightledger.scenario.render;

/**
 * What the stand-in wears.
 *
 * @param cut the shape of the clothes
 * @param cloth colour of the dress or coat
 * @param sheer share of light that comes through the cloth, in [0, 1]
 * @param hair colour of the hair
 */
public record Outfit(Cut cut, Vec3 cloth, double sheer, Vec3 hair) {
  /** The shape of the clothes. */
  public enum Cut {
    LONG_DRESS,
    DRESS_AND_HAT,
    COAT
  }

  private static final Vec3 BROWN = new Vec3(0.06, 0.035, 0.02);
  private static final Vec3 AUBURN = new Vec3(0.16, 0.06, 0.025);
  private static final Vec3 FAIR = new Vec3(0.34, 0.23, 0.11);

  /** A cream-coloured light dress, brown hair. */
  public static final Outfit CREAM =
      new Outfit(Cut.LONG_DRESS, new Vec3(0.70, 0.63, 0.52), 0.25, BROWN);

  /** A dress in old rose, fair hair. */
  public static final Outfit ROSE =
      new Outfit(Cut.LONG_DRESS, new Vec3(0.58, 0.28, 0.26), 0.18, FAIR);

  /** A pale blue summer dress with a straw hat. */
  public static final Outfit STRAW_HAT =
      new Outfit(Cut.DRESS_AND_HAT, new Vec3(0.42, 0.48, 0.55), 0.2, AUBURN);

  /** A rust-red coat over dark trousers. */
  public static final Outfit RUST_COAT =
      new Outfit(Cut.COAT, new Vec3(0.33, 0.145, 0.085), 0.0, BROWN);

  /** A camel coat over dark trousers, auburn hair. */
  public static final Outfit CAMEL_COAT =
      new Outfit(Cut.COAT, new Vec3(0.44, 0.33, 0.21), 0.0, AUBURN);
}
