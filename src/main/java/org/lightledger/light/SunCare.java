package org.lightledger.light;

/** When a warning of the sun in the picture is due. */
public final class SunCare {
  /** The warning; common practice, no source. */
  public static final String WARNING =
      "Never look at the sun through an optical viewfinder or a long lens: it burns eyes and"
          + " shutters.";

  /**
   * Up to this apparent altitude a sun behind the subject may come into the picture; degrees. Own
   * choice: the upper edge of an upright 35 mm view that is held level lies at 27 degrees.
   */
  public static final double LOW_SUN_UP_TO_DEG = 30;

  private SunCare() {}

  /**
   * Whether the warning belongs beside a light.
   *
   * @param light the class
   * @param apparentAltitudeDeg the sun's altitude as seen, degrees
   * @return true when one looks towards a low sun
   */
  public static boolean isDue(LightClass light, double apparentAltitudeDeg) {
    return light == LightClass.BACKLIT && apparentAltitudeDeg <= LOW_SUN_UP_TO_DEG;
  }
}
