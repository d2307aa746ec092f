package org.lightledger.session.drive;

/** How a drive's minutes are known, best first. */
public enum DriveSource {
  /** The owner's own minutes. */
  OWNER("your own minutes"),
  /** A route over the roads of the map, without traffic. */
  ROUTED("routed, without traffic"),
  /** From the distance alone. */
  ESTIMATED("estimated from the distance");

  private final String label;

  DriveSource(String label) {
    this.label = label;
  }

  /**
   * The words on screens.
   *
   * @return for example "estimated from the distance"
   */
  public String label() {
    return label;
  }
}
