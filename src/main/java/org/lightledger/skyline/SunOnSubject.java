package org.lightledger.skyline;

/** What a shot shows of the sun on the subject, by the owner's word. */
public enum SunOnSubject {
  /** Direct sun. */
  YES("direct sun"),
  /** Shade, while the sky towards the sun was clear. */
  NO("shade"),
  /** Both in spots, as under leaves: proves neither. */
  DAPPLED("dappled");

  private final String label;

  SunOnSubject(String label) {
    this.label = label;
  }

  /**
   * The word on screens.
   *
   * @return for example "direct sun"
   */
  public String label() {
    return label;
  }
}
