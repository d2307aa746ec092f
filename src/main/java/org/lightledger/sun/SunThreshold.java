package org.lightledger.sun;

/**
 * The altitudes that part day, the twilights and night, as the geometric altitude of the centre of
 * the sun's disc.
 */
public enum SunThreshold {
  /**
   * The upper limb on a level horizon: 34 arc minutes of refraction and 16 of the sun's radius make
   * 50, the convention of almanacs (Seidelmann, Explanatory Supplement to the Astronomical Almanac,
   * 1992, section 9.31; -0.8333 in decimals). {@link Refraction} sees the limb 3 arc minutes higher
   * at that instant, and real air, by its temperature, up to half a degree higher or lower.
   */
  HORIZON(-50.0 / 60.0, SunEventKind.SUNRISE, SunEventKind.SUNSET),

  /** Civil twilight: outdoors one still sees without lamps (same section). */
  CIVIL(-6.0, SunEventKind.CIVIL_DAWN, SunEventKind.CIVIL_DUSK),

  /** Nautical twilight: the horizon at sea is still seen (same section). */
  NAUTICAL(-12.0, SunEventKind.NAUTICAL_DAWN, SunEventKind.NAUTICAL_DUSK),

  /** Astronomical twilight: beyond it the sky is dark (same section). */
  ASTRONOMICAL(-18.0, SunEventKind.ASTRONOMICAL_DAWN, SunEventKind.ASTRONOMICAL_DUSK);

  private final double geometricAltitudeDeg;
  private final SunEventKind rising;
  private final SunEventKind setting;

  SunThreshold(double geometricAltitudeDeg, SunEventKind rising, SunEventKind setting) {
    this.geometricAltitudeDeg = geometricAltitudeDeg;
    this.rising = rising;
    this.setting = setting;
  }

  /**
   * The threshold itself.
   *
   * @return geometric altitude of the sun's centre, degrees
   */
  public double geometricAltitudeDeg() {
    return geometricAltitudeDeg;
  }

  /**
   * The event when the sun climbs through it.
   *
   * @return sunrise or a dawn
   */
  public SunEventKind rising() {
    return rising;
  }

  /**
   * The event when the sun sinks through it.
   *
   * @return sunset or a dusk
   */
  public SunEventKind setting() {
    return setting;
  }
}
