package org.lightledger.sun;

/** What can happen to the sun in a day, in the order of an ordinary day. */
public enum SunEventKind {
  /** Lower transit: the sun crosses the meridian below the pole. */
  SOLAR_MIDNIGHT("solar midnight"),
  /** The sun climbs through -18 degrees. */
  ASTRONOMICAL_DAWN("astronomical dawn"),
  /** The sun climbs through -12 degrees. */
  NAUTICAL_DAWN("nautical dawn"),
  /** The sun climbs through -6 degrees. */
  CIVIL_DAWN("civil dawn"),
  /** The upper limb appears. */
  SUNRISE("sunrise"),
  /** Upper transit: the sun crosses the meridian above the pole. */
  SOLAR_NOON("solar noon"),
  /** The upper limb disappears. */
  SUNSET("sunset"),
  /** The sun sinks through -6 degrees. */
  CIVIL_DUSK("civil dusk"),
  /** The sun sinks through -12 degrees. */
  NAUTICAL_DUSK("nautical dusk"),
  /** The sun sinks through -18 degrees. */
  ASTRONOMICAL_DUSK("astronomical dusk");

  private final String label;

  SunEventKind(String label) {
    this.label = label;
  }

  /**
   * The name for screens and files.
   *
   * @return for example "civil dusk"
   */
  public String label() {
    return label;
  }
}
