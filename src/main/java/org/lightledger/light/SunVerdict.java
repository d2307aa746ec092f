package org.lightledger.light;

/** What a shot's exposure suggests of the sun on its subject. Never a fact. */
public enum SunVerdict {
  /** Direct sun. */
  DIRECT_SUN("direct sun"),
  /** Shade, or clouds before the sun. */
  SHADE("shade"),
  /** Both would look alike, or neither fits. */
  CANNOT_TELL("can't tell");

  private final String label;

  SunVerdict(String label) {
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
