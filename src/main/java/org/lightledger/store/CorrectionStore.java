package org.lightledger.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * The owner's corrections, with everything they changed as it was before. Rows are copied inside
 * the ledger, column by column, so that what comes back is what was there to the last bit.
 */
public final class CorrectionStore {
  /** What a correction can change of a shot, other than its place. */
  private static final String CHANGED =
      "spot_id, time_state, captured_ms, captured_rest_ns, captured_offset_s, captured_at,"
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
            "INSERT INTO corrected_shots (correction_id, shot_id, "
                + CHANGED
                + "place_before, file_said) SELECT ?, id, "
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
   * Ends a correction: notes where it left the spots that it touched.
   *
   * @param id the correction
   */
  public void finish(long id) {
    session
        .call(
            "UPDATE corrected_spots SET place_after ="
                + " (SELECT geom FROM spots s WHERE s.id = spot_id) WHERE correction_id = ?")
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
   * removed are there again with their numbers; spots that nobody moved since stand where they
   * stood. What it can not put back by itself it names.
   *
   * @param id the newest correction
   * @return what to look after
   * @throws LedgerException when there is no such correction
   */
  public Restored restore(long id) {
    session.changing(LedgerSession.Content.SHOTS);
    session.changing(LedgerSession.Content.SPOTS);
    session
        .call(
            "INSERT INTO spots (id, geom, "
                + SPOT
                + ") SELECT spot_id, place_before, "
                + SPOT
                + " FROM corrected_spots WHERE correction_id = ? AND place_before IS NOT NULL"
                + " AND spot_id NOT IN (SELECT id FROM spots)")
        .integer(id)
        .run();
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
    Restored restored =
        new Restored(
            session
                .call(
                    "SELECT s.id FROM corrected_shots c JOIN shots s ON s.id = c.shot_id"
                        + " WHERE c.correction_id = ? AND c.file_said <> "
                        + FILE_SAID
                        + " ORDER BY s.id")
                .integer(id)
                .list(Row::integer),
            new ArrayList<>(),
            new ArrayList<>(),
            new ArrayList<>());
    session
        .call(
            "SELECT c.spot_id, c.place_before, c.place_after, s.geom FROM corrected_spots c"
                + " JOIN spots s ON s.id = c.spot_id WHERE c.correction_id = ? ORDER BY c.spot_id")
        .integer(id)
        .each(
            row -> {
              long spotId = row.integer();
              byte[] before = row.blobOrNull();
              byte[] after = row.blobOrNull();
              boolean stayed = after == null || Arrays.equals(after, row.blob());
              if (before == null) {
                restored.made().add(spotId);
              } else {
                (stayed ? restored.stayed() : restored.moved()).add(spotId);
              }
            });
    for (long spotId : restored.stayed()) {
      session
          .call(
              "UPDATE spots SET (geom, zone) = (SELECT place_before, zone FROM corrected_spots c"
                  + " WHERE c.correction_id = ? AND c.spot_id = spots.id) WHERE id = ?")
          .integer(id)
          .integer(spotId)
          .run();
    }
    if (session.call("DELETE FROM corrections WHERE id = ?").integer(id).run() == 0) {
      throw LedgerException.notFound("correction", id);
    }
    return restored;
  }

  /**
   * What a correction had touched.
   *
   * @param fuller shots of which an import has learned more since, to be concluded again
   * @param stayed put back where they stood before it
   * @param moved moved by something else since, so that their middle has to be found anew
   * @param made made by the correction, and needless when no other shot joined them
   */
  public record Restored(List<Long> fuller, List<Long> stayed, List<Long> moved, List<Long> made) {}
}
