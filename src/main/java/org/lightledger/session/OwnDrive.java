package org.lightledger.session;

/**
 * The owner's own minutes for a drive between two spots. They hold both ways unless both are told.
 *
 * @param fromSpotId where it starts
 * @param toSpotId where it ends
 * @param minutes how long it takes, minutes, [0, 720]
 */
public record OwnDrive(long fromSpotId, long toSpotId, int minutes) {
  private static final int LONGEST = 720;

  /** Checks the minutes, and that there is a drive at all. */
  public OwnDrive {
    Texts.within("minutes of a drive", minutes, 0, LONGEST);
    if (fromSpotId == toSpotId) {
      throw new IllegalArgumentException(
          "expected a drive between two spots, found spot " + fromSpotId + " twice");
    }
  }
}
