package org.lightledger.session.drive;

/**
 * A drive from one place to another.
 *
 * @param minutes how long it takes, whole minutes rounded up, 0 or more
 * @param source how that is known
 * @param reason one sentence on what the minutes rest on
 */
public record Drive(int minutes, DriveSource source, String reason) {

  /**
   * Checks the drive.
   *
   * @throws IllegalArgumentException when the minutes are negative
   */
  public Drive {
    if (minutes < 0) {
      throw new IllegalArgumentException("expected a drive of 0 minutes or more, found " + minutes);
    }
  }
}
