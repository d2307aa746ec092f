package org.lightledger.store;

import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.LocalTime;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.lightledger.session.OpenHours;
import org.lightledger.session.OwnDrive;

/** What the owner knows of getting to spots: minutes of drives, and hours of opening. */
public final class DriveStore {
  private static final String DRIVE = "SELECT from_spot_id, to_spot_id, minutes FROM drives ";

  private final LedgerSession session;

  DriveStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * Every drive that the owner has told.
   *
   * @return by number of the spots
   */
  public List<OwnDrive> all() {
    return session.call(DRIVE + "ORDER BY from_spot_id, to_spot_id").list(DriveStore::readDrive);
  }

  /**
   * The drives that the owner has told from or to a spot.
   *
   * @param spotId the spot
   * @return by number of the spots
   */
  public List<OwnDrive> of(long spotId) {
    return session
        .call(
            DRIVE + "WHERE from_spot_id = ?1 OR to_spot_id = ?1 ORDER BY from_spot_id, to_spot_id")
        .integer(spotId)
        .list(DriveStore::readDrive);
  }

  /**
   * Keeps how long a drive takes, in place of what was told before of this way.
   *
   * @param drive the drive
   * @throws LedgerException when a spot is not in the ledger
   */
  public void put(OwnDrive drive) {
    session.changing(LedgerSession.Content.DRIVES);
    session
        .call(
            "INSERT INTO drives (from_spot_id, to_spot_id, minutes) VALUES (?, ?, ?)"
                + " ON CONFLICT (from_spot_id, to_spot_id) DO UPDATE SET minutes ="
                + " excluded.minutes")
        .integer(drive.fromSpotId())
        .integer(drive.toSpotId())
        .integer(drive.minutes())
        .run();
  }

  /**
   * Forgets what was told of a drive, this way alone.
   *
   * @param fromSpotId where it starts
   * @param toSpotId where it ends
   */
  public void remove(long fromSpotId, long toSpotId) {
    int removed =
        session
            .call("DELETE FROM drives WHERE from_spot_id = ? AND to_spot_id = ?")
            .integer(fromSpotId)
            .integer(toSpotId)
            .run();
    if (removed > 0) {
      session.changing(LedgerSession.Content.DRIVES);
    }
  }

  /**
   * When a spot lets people in.
   *
   * @param spotId the spot
   * @return its hours, or nothing when it is open at any time
   */
  public Optional<OpenHours> hours(long spotId) {
    return session
        .call("SELECT spot_id, opens, closes FROM spot_hours WHERE spot_id = ?")
        .integer(spotId)
        .first(
            row -> {
              row.integer();
              return readHours(spotId, row);
            });
  }

  /**
   * The hours of all spots that have some.
   *
   * @return by the spot's number
   */
  public Map<Long, OpenHours> hours() {
    Map<Long, OpenHours> hours = new HashMap<>();
    session
        .call("SELECT spot_id, opens, closes FROM spot_hours")
        .each(
            row -> {
              long spotId = row.integer();
              hours.put(spotId, readHours(spotId, row));
            });
    return hours;
  }

  /**
   * Keeps when a spot lets people in.
   *
   * @param spotId the spot
   * @param hours its hours, in place of those before
   * @throws LedgerException when there is no such spot
   */
  public void setHours(long spotId, OpenHours hours) {
    session.changing(LedgerSession.Content.SPOT_HOURS);
    session
        .call(
            "INSERT INTO spot_hours (spot_id, opens, closes) VALUES (?, ?, ?)"
                + " ON CONFLICT (spot_id) DO UPDATE SET opens = excluded.opens,"
                + " closes = excluded.closes")
        .integer(spotId)
        .textOf(hours.opens())
        .textOf(hours.closes())
        .run();
  }

  /**
   * Lets a spot be open at any time.
   *
   * @param spotId the spot
   */
  public void removeHours(long spotId) {
    if (session.call("DELETE FROM spot_hours WHERE spot_id = ?").integer(spotId).run() > 0) {
      session.changing(LedgerSession.Content.SPOT_HOURS);
    }
  }

  private static OwnDrive readDrive(Row row) throws SQLException {
    return new OwnDrive(row.integer(), row.integer(), row.whole());
  }

  private static OpenHours readHours(long spotId, Row row) throws SQLException {
    try {
      return new OpenHours(LocalTime.parse(row.text()), LocalTime.parse(row.text()));
    } catch (IllegalArgumentException | DateTimeException e) {
      throw LedgerException.foreign("the hours of spot " + spotId, e);
    }
  }
}
