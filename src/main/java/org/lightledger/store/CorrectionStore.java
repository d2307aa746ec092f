package org.lightledger.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * The owner's corrections, with everything they changed as it was before. Rows are copied inside
 * the ledger, column by column, so that what comes back is what was there to the last bit.
 */
public final class CorrectionStore {
  /** What a correction can change of a shot, other than its place and its spot. */
  private static final String CHANGED =
      "time_state, captured_ms, captured_rest_ns, captured_offset_s, captured_at,"
          + " time_source, time_local, time_candidates, time_reason, clock_correction_ms,"
          + " position_source, position_error_m, position_altitude_m, facing_deg, facing_source,"
          + " sun_azimuth_deg, sun_geometric_altitude_deg, sun_apparent_altitude_deg,"
          + " needs_attention, problems, ";

  /** Everything that the files of a shot say, as one text. */
  private static final String FILE_SAID =
      "json_array(file_format, file_local_time, file_offset_s, file_gps_instant,"
          + " file_gps_time_of_day, file_latitude_deg, file_longitude_deg, file_altitude_m,"
          + " file_position_error_m, file_direction_deg, file_direction_north,"
          + " file_exposure_time_s, file_f_number, file_iso_speed, file_focal_length_35mm_mm,"
          + " file_orientation, file_width_px, file_height_px, file_camera, file_problems)";

  private static final String SPOT = "name, area, zone, open, notes, cautions";

  private static final String SHOTS_OF_SPOT =
      " (SELECT count(*) FROM shots WHERE shots.spot_id = s.id)";

  /** Shots of the correction c that belonged to its spot, and are where it left them, or not. */
  private static final String SHOTS_LEFT =
      " (SELECT 1 FROM corrected_shots k JOIN shots h ON h.id = k.shot_id"
          + " WHERE k.correction_id = c.correction_id AND k.spot_id = c.spot_id"
          + " AND k.home_after IS ";

  private static final String RETURN = SHOTS_LEFT + "coalesce(h.spot_id, h.dropped_spot_id))";
  private static final String STAY_AWAY =
      SHOTS_LEFT + "NOT coalesce(h.spot_id, h.dropped_spot_id))";

  private static final String SELECT =
      "SELECT id, made_ms, words,"
          + " (SELECT count(*) FROM corrected_shots s WHERE s.correction_id = c.id)"
          + " FROM corrections c ";

  private final LedgerSession session;

  CorrectionStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * Begins a correction.
   *
   * @param madeAt the present
   * @param words what it is, for the owner
   * @return the ledger's number of the correction
   */
  public long begin(Instant madeAt, String words) {
    return session
        .call("INSERT INTO corrections (made_ms, words) VALUES (?, ?) RETURNING id")
        .millis(madeAt)
        .text(words)
        .number();
  }

  /**
   * Keeps a shot as it is before a correction changes it.
   *
   * @param id the correction
   * @param shotId the shot
   */
  public void keepShot(long id, long shotId) {
    session
        .call(
            "INSERT INTO corrected_shots (correction_id, shot_id, spot_id, dropped_spot_id,"
                + " spot_source, "
                + CHANGED
                + "place_before, file_said) SELECT ?, id, spot_id, dropped_spot_id, spot_source, "
                + CHANGED
                + "geom, "
                + FILE_SAID
                + " FROM shots WHERE id = ?")
        .integer(id)
        .integer(shotId)
        .run();
  }

  /**
   * Keeps a spot as it is before a correction touches it; only the first time counts.
   *
   * @param id the correction
   * @param spotId the spot
   */
  public void keepSpot(long id, long spotId) {
    session
        .call(
            "INSERT OR IGNORE INTO corrected_spots (correction_id, spot_id, place_before, "
                + SPOT
                + ") SELECT ?, id, geom, "
                + SPOT
                + " FROM spots WHERE id = ?")
        .integer(id)
        .integer(spotId)
        .run();
  }

  /**
   * Notes that a correction made a spot.
   *
   * @param id the correction
   * @param spotId the spot
   */
  public void keepMade(long id, long spotId) {
    session
        .call("INSERT INTO corrected_spots (correction_id, spot_id) VALUES (?, ?)")
        .integer(id)
        .integer(spotId)
        .run();
  }

  /**
   * Ends a correction: notes where it left the spots that it touched, and the shots.
   *
   * @param id the correction
   */
  public void finish(long id) {
    session
        .call(
            "UPDATE corrected_spots SET (place_after, shots_after) = (SELECT geom,"
                + SHOTS_OF_SPOT
                + " FROM spots s WHERE s.id = corrected_spots.spot_id) WHERE correction_id = ?")
        .integer(id)
        .run();
    session
        .call(
            "UPDATE corrected_shots SET home_after = (SELECT coalesce(s.spot_id,"
                + " s.dropped_spot_id) FROM shots s WHERE s.id = shot_id) WHERE correction_id = ?")
        .integer(id)
        .run();
  }

  /**
   * The newest corrections.
   *
   * @param most how many, 1 or more
   * @return newest first
   */
  public List<StoredCorrection> newest(int most) {
    return session
        .call(SELECT + "ORDER BY id DESC LIMIT ?")
        .integer(most)
        .list(row -> new StoredCorrection(row.integer(), row.instant(), row.text(), row.whole()));
  }

  /**
   * Whether a shot has been corrected, and not undone.
   *
   * @param shotId the shot
   * @return its newest correction, or nothing
   */
  public Optional<StoredCorrection> newestOf(long shotId) {
    return session
        .call(
            SELECT
                + "WHERE id = (SELECT max(correction_id) FROM corrected_shots WHERE shot_id = ?)")
        .integer(shotId)
        .first(row -> new StoredCorrection(row.integer(), row.instant(), row.text(), row.whole()));
  }

  /**
   * Puts shots and spots back as they were and forgets the correction. Spots that the correction
   * removed are there again with their numbers when a shot returns to them; spots that nothing
   * changed since stand where they stood. A shot that the owner has given another spot since keeps
   * that. What it can not put back by itself it names.
   *
   * @param id the newest correction
   * @return what to look after
   * @throws LedgerException when there is no such correction
   */
  public Restored restore(long id) {
    session.changing(LedgerSession.Content.SHOTS);
    session.changing(LedgerSession.Content.SPOTS);
    List<Long> shots =
        session
            .call("SELECT shot_id FROM corrected_shots WHERE correction_id = ? ORDER BY shot_id")
            .integer(id)
            .list(Row::integer);
    List<Long> fuller =
        session
            .call(
                "SELECT s.id FROM corrected_shots c JOIN shots s ON s.id = c.shot_id"
                    + " WHERE c.correction_id = ? AND c.file_said <> "
                    + FILE_SAID
                    + " ORDER BY s.id")
            .integer(id)
            .list(Row::integer);
    List<Long> away =
        session
            .call(
                "SELECT s.id FROM corrected_shots c JOIN shots s ON s.id = c.shot_id"
                    + " WHERE c.correction_id = ? AND c.home_after IS NOT"
                    + " coalesce(s.spot_id, s.dropped_spot_id) ORDER BY s.id")
            .integer(id)
            .list(Row::integer);
    putSpotsBack(id);
    Map<Boolean, List<Long>> changed = new TreeMap<>();
    session
        .call(
            "SELECT s.id, (c.place_after IS NOT NULL AND (c.place_after IS NOT s.geom"
                + " OR c.shots_after IS NOT"
                + SHOTS_OF_SPOT
                + ")) OR EXISTS"
                + STAY_AWAY
                + " FROM corrected_spots c JOIN spots s ON s.id = c.spot_id"
                + " WHERE c.correction_id = ? AND c.place_before IS NOT NULL ORDER BY s.id")
        .integer(id)
        .each(
            row -> {
              long spotId = row.integer();
              changed.computeIfAbsent(row.flag(), any -> new ArrayList<>()).add(spotId);
            });
    List<Long> made =
        session
            .call(
                "SELECT s.id FROM corrected_spots c JOIN spots s ON s.id = c.spot_id"
                    + " WHERE c.correction_id = ? AND c.place_before IS NULL ORDER BY s.id")
            .integer(id)
            .list(Row::integer);
    putShotsBack(id);
    List<Long> stayed = changed.getOrDefault(false, List.of());
    for (long spotId : stayed) {
      session
          .call(
              "UPDATE spots SET (geom, zone) = (SELECT c.place_before, c.zone"
                  + " FROM corrected_spots c WHERE c.correction_id = ? AND c.spot_id = spots.id)"
                  + " WHERE id = ?")
          .integer(id)
          .integer(spotId)
          .run();
    }
    if (session.call("DELETE FROM corrections WHERE id = ?").integer(id).run() == 0) {
      throw LedgerException.notFound("correction", id);
    }
    return new Restored(shots, fuller, away, stayed, changed.getOrDefault(true, List.of()), made);
  }

  /**
   * Only those that the correction removed and that a shot returns to: what the owner joined or
   * deleted since stays so.
   */
  private void putSpotsBack(long id) {
    session
        .call(
            "INSERT INTO spots (id, geom, "
                + SPOT
                + ") SELECT spot_id, place_before, "
                + SPOT
                + " FROM corrected_spots c WHERE correction_id = ? AND place_before IS NOT NULL"
                + " AND place_after IS NULL AND EXISTS"
                + RETURN)
        .integer(id)
        .run();
  }

  private void putShotsBack(long id) {
    session
        .call(
            "UPDATE shots SET ("
                + CHANGED
                + "geom) = (SELECT "
                + CHANGED
                + "place_before FROM corrected_shots c WHERE c.correction_id = ?"
                + " AND c.shot_id = shots.id)"
                + " WHERE id IN (SELECT shot_id FROM corrected_shots WHERE correction_id = ?)")
        .integer(id)
        .integer(id)
        .run();
    session
        .call(
            "UPDATE shots SET (spot_id, dropped_spot_id, spot_source) = (SELECT"
                + " (SELECT s.id FROM spots s WHERE s.id = coalesce(c.spot_id, c.dropped_spot_id)),"
                + " (SELECT d.id FROM dropped_spots d"
                + " WHERE d.id = coalesce(c.spot_id, c.dropped_spot_id)), c.spot_source"
                + " FROM corrected_shots c WHERE c.correction_id = ? AND c.shot_id = shots.id)"
                + " WHERE id IN (SELECT c.shot_id FROM corrected_shots c WHERE c.correction_id = ?"
                + " AND c.home_after IS coalesce(shots.spot_id, shots.dropped_spot_id))")
        .integer(id)
        .integer(id)
        .run();
  }

  /**
   * What a correction had touched.
   *
   * @param shots its shots
   * @param fuller those of which an import has learned more since, to be concluded again
   * @param away those that have been given another spot since, and keep it
   * @param stayed spots that stand where they stood before it
   * @param moved spots that something else has changed since, or to which not all of their shots
   *     return, so that their middle has to be found anew
   * @param made spots made by the correction, needless when no other shot joined them
   */
  public record Restored(
      List<Long> shots,
      List<Long> fuller,
      List<Long> away,
      List<Long> stayed,
      List<Long> moved,
      List<Long> made) {}
}
