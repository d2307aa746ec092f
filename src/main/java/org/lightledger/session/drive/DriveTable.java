package org.lightledger.session.drive;

import java.util.Map;
import java.util.Optional;

/**
 * The drives between the spots of a session.
 *
 * @param between the drive of each ordered pair of spots; a pair that is absent can not be driven
 * @param fromMeeting the drive from the meeting spot to each spot; empty when the session meets at
 *     its first stop
 */
public record DriveTable(Map<Leg, Drive> between, Map<Long, Drive> fromMeeting) {

  /**
   * From one spot to another.
   *
   * @param fromSpotId the ledger's number of the first
   * @param toSpotId the ledger's number of the second
   */
  public record Leg(long fromSpotId, long toSpotId) {}

  /** Keeps its own copies. */
  public DriveTable {
    between = Map.copyOf(between);
    fromMeeting = Map.copyOf(fromMeeting);
  }

  /**
   * The drive between two spots.
   *
   * @param fromSpotId where it starts
   * @param toSpotId where it ends
   * @return the drive, or nothing when there is none
   */
  public Optional<Drive> between(long fromSpotId, long toSpotId) {
    return Optional.ofNullable(between.get(new Leg(fromSpotId, toSpotId)));
  }

  /**
   * Whether the session meets elsewhere than at its first stop.
   *
   * @return true when the first stop is driven to
   */
  public boolean hasMeetingSpot() {
    return !fromMeeting.isEmpty();
  }

  /**
   * The drive from the meeting spot.
   *
   * @param spotId where it ends
   * @return the drive, or nothing when there is none
   */
  public Optional<Drive> fromMeeting(long spotId) {
    return Optional.ofNullable(fromMeeting.get(spotId));
  }
}
