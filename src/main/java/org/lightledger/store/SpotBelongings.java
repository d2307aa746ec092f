package org.lightledger.store;

import java.util.List;
import java.util.stream.Collectors;

/**
 * What hangs on a spot besides its own row, its facings and its shots: what the owner says of it
 * and uses it for, and what clients say of it.
 */
public final class SpotBelongings {
  /** The columns that lead to a spot, other than of what the ledger works out by itself. */
  static final List<String> COLUMNS =
      List.of(
          "anchors.spot_id",
          "spot_traits.spot_id",
          "spot_hazards.spot_id",
          "spot_hours.spot_id",
          "measured_points.spot_id",
          "drives.from_spot_id",
          "drives.to_spot_id",
          "dropped_drives.from_spot_id",
          "dropped_drives.to_spot_id",
          "shortlist_entries.spot_id",
          "session_candidates.spot_id",
          "plan_stops.spot_id",
          "plan_stops.fallback_spot_id",
          "share_picks.spot_id");

  private static final String ANY =
      COLUMNS.stream()
          .map(SpotBelongings::exists)
          .collect(Collectors.joining(" OR ", "SELECT ", ""));

  /** Of the drives of the other spot (?2) those to places to which this one (?1) has none. */
  private static final String GIVE_DRIVES =
      "UPDATE %1$s SET from_spot_id = iif(from_spot_id = ?2, ?1, from_spot_id),"
          + " to_spot_id = iif(to_spot_id = ?2, ?1, to_spot_id)"
          + " WHERE ?2 IN (from_spot_id, to_spot_id)"
          + " AND iif(from_spot_id = ?2, to_spot_id, from_spot_id) NOT IN (SELECT ?1 UNION"
          + " SELECT iif(from_spot_id = ?1, to_spot_id, from_spot_id) FROM %1$s"
          + " WHERE ?1 IN (from_spot_id, to_spot_id))";

  private final LedgerSession session;

  SpotBelongings(LedgerSession session) {
    this.session = session;
  }

  private static String exists(String column) {
    return "EXISTS (SELECT 1 FROM "
        + column.substring(0, column.indexOf('.'))
        + " WHERE "
        + column
        + " = ?1)";
  }

  /**
   * Whether anything hangs on a spot.
   *
   * @param spotId the ledger's number of the spot
   * @return true when it would be lost, or missed, without the spot
   */
  public boolean any(long spotId) {
    return session.call(ANY).integer(spotId).number() == 1;
  }

  /**
   * Gives what the owner and clients say of a spot to another. All is put together; the hours, the
   * drives to one place and the reading of one azimuth that the other spot has are not replaced.
   *
   * @param otherId the ledger's number of the spot that gives
   * @param spotId the ledger's number of the spot that takes
   */
  public void give(long otherId, long spotId) {
    changing();
    move(
        "INSERT OR IGNORE INTO spot_traits (spot_id, trait) SELECT ?1, trait FROM spot_traits"
            + " WHERE spot_id = ?2",
        otherId,
        spotId);
    move(
        "INSERT OR IGNORE INTO spot_hazards (spot_id, hazard) SELECT ?1, hazard"
            + " FROM spot_hazards WHERE spot_id = ?2",
        otherId,
        spotId);
    move(
        "INSERT OR IGNORE INTO spot_hours (spot_id, opens, closes) SELECT ?1, opens, closes"
            + " FROM spot_hours WHERE spot_id = ?2",
        otherId,
        spotId);
    move(
        "INSERT OR IGNORE INTO measured_points (spot_id, azimuth_deg, altitude_deg)"
            + " SELECT ?1, azimuth_deg, altitude_deg FROM measured_points WHERE spot_id = ?2",
        otherId,
        spotId);
    giveDrives("drives", otherId, spotId);
    giveDrives("dropped_drives", otherId, spotId);
    givePicks(otherId, spotId);
  }

  private void giveDrives(String table, long otherId, long spotId) {
    move(String.format(GIVE_DRIVES, table), otherId, spotId);
    session
        .call("DELETE FROM " + table + " WHERE ?1 IN (from_spot_id, to_spot_id)")
        .integer(otherId)
        .run();
  }

  /** Of one client's words on both spots none is lost, up to what a pick can hold. */
  private void givePicks(long otherId, long spotId) {
    move(
        "UPDATE share_picks SET favourite = max(share_picks.favourite, o.favourite),"
            + " words = CASE WHEN o.words = '' THEN share_picks.words"
            + " WHEN share_picks.words = '' THEN o.words"
            + " ELSE substr(share_picks.words || char(10) || o.words, 1, 2000) END"
            + " FROM share_picks o WHERE share_picks.spot_id = ?1 AND o.spot_id = ?2"
            + " AND o.share_id = share_picks.share_id",
        otherId,
        spotId);
    move("UPDATE OR IGNORE share_picks SET spot_id = ?1 WHERE spot_id = ?2", otherId, spotId);
  }

  private void move(String sql, long otherId, long spotId) {
    session.call(sql).integer(spotId).integer(otherId).run();
  }

  /** The table of contents tells of all that may change along with a spot. */
  void changing() {
    for (LedgerSession.Content content :
        List.of(
            LedgerSession.Content.SPOT_TRAITS,
            LedgerSession.Content.SPOT_HAZARDS,
            LedgerSession.Content.SPOT_HOURS,
            LedgerSession.Content.MEASURED_POINTS,
            LedgerSession.Content.DRIVES,
            LedgerSession.Content.DROPPED_DRIVES,
            LedgerSession.Content.SHARE_PICKS)) {
      session.changing(content);
    }
  }
}
