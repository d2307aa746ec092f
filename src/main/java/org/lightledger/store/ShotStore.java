package org.lightledger.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.NearbyShots;
import org.lightledger.shot.Shot;
import org.lightledger.sun.SunDirection;

/** The scouting shots, each once, however many files hold it. */
public final class ShotStore {

  private final LedgerSession session;

  ShotStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * Adds a shot.
   *
   * @param shot what is known of it
   * @param sha256 fingerprint of the file's content, 64 hexadecimal digits in lower case
   * @param sun where the sun stood, or null when time or place is not known
   * @param spotId the spot it was taken at, or null
   * @return the ledger's number of the shot
   * @throws LedgerException when the ledger has this content already, or a rule is broken
   */
  public long insert(Shot shot, String sha256, @Nullable SunDirection sun, @Nullable Long spotId) {
    long id = insertAt(shot, sha256, sun, spotId, null);
    if (spotId != null) {
      session.grouping().settle(spotId);
    }
    return id;
  }

  /**
   * Adds a shot where its place belongs; to settle the spot is left to the caller.
   *
   * @param shot what is known of it
   * @param sha256 fingerprint of the file's content, 64 hexadecimal digits in lower case
   * @param sun where the sun stood, or null when time or place is not known
   * @param spotId the spot it was taken at, or null
   * @param droppedId the dropped spot it was taken at, or null
   * @return the ledger's number of the shot
   * @throws LedgerException when the ledger has this content already, or a rule is broken
   */
  public long insertAt(
      Shot shot,
      String sha256,
      @Nullable SunDirection sun,
      @Nullable Long spotId,
      @Nullable Long droppedId) {
    session.changing(LedgerSession.Content.SHOTS);
    Call call = session.call(ShotRows.INSERT).text(sha256).integer(spotId).integer(droppedId);
    return ShotRows.fill(call, shot, sun).number();
  }

  /**
   * Replaces what is known of a shot, for example after the owner's word on its time.
   *
   * @param id the ledger's number of the shot
   * @param shot what is known now
   * @param sun where the sun stood, or null when time or place is not known
   * @throws LedgerException when there is no such shot, or a rule is broken
   */
  public void update(long id, Shot shot, @Nullable SunDirection sun) {
    session.changing(LedgerSession.Content.SHOTS);
    requireOne(id, ShotRows.fill(session.call(ShotRows.UPDATE), shot, sun).integer(id).run());
    session
        .call("SELECT spot_id FROM shots WHERE id = ? AND spot_id IS NOT NULL")
        .integer(id)
        .first(Row::integer)
        .ifPresent(session.grouping()::settle);
  }

  /**
   * Says which spot a shot belongs to by its place.
   *
   * @param id the ledger's number of the shot
   * @param spotId the spot, or null for none
   * @throws LedgerException when there is no such shot or spot
   */
  public void assign(long id, @Nullable Long spotId) {
    session.grouping().assign(id, spotId, null, GroupingStore.Source.PLACE);
  }

  /**
   * Finds a shot.
   *
   * @param id the ledger's number of the shot
   * @return the shot, or nothing when there is none
   */
  public Optional<StoredShot> find(long id) {
    return session
        .call(ShotRows.SELECT + "WHERE id = ?")
        .integer(id)
        .first(ShotRows::read)
        .map(this::withFiles);
  }

  /**
   * Finds a shot by the content of any of its files.
   *
   * @param sha256 fingerprint of a file's content
   * @return the ledger's number of the shot, or nothing when it is new
   */
  public Optional<Long> idOf(String sha256) {
    return session
        .call(
            "SELECT id FROM shots WHERE sha256 = ? UNION ALL"
                + " SELECT shot_id FROM files WHERE sha256 = ? AND shot_id IS NOT NULL LIMIT 1")
        .text(sha256)
        .text(sha256)
        .first(Row::integer);
  }

  /**
   * The fingerprints of all shots.
   *
   * @return 64 hexadecimal digits in lower case each
   */
  public Set<String> fingerprints() {
    return new HashSet<>(session.call("SELECT sha256 FROM shots").list(Row::text));
  }

  /**
   * Counts the shots of a spot.
   *
   * @param spotId the spot
   * @return the count, 0 or more
   */
  public long countOfSpot(long spotId) {
    return session.call("SELECT count(*) FROM shots WHERE spot_id = ?").integer(spotId).number();
  }

  /**
   * The shots of a spot.
   *
   * @param spotId the spot
   * @return earliest first, those without a known time before all others
   */
  public List<StoredShot> ofSpot(long spotId) {
    return withFiles(
        session
            .call(ShotRows.SELECT + "WHERE spot_id = ? ORDER BY captured_ms, captured_rest_ns, id")
            .integer(spotId)
            .list(ShotRows::read));
  }

  /**
   * The shots that wait for the owner: time or place missing or doubtful.
   *
   * @return in the order in which they came
   */
  public List<StoredShot> needingAttention() {
    return withFiles(
        session
            .call(ShotRows.SELECT + "WHERE needs_attention = 1 ORDER BY id")
            .list(ShotRows::read));
  }

  /**
   * The shots taken in a span of time.
   *
   * @param from start, belongs to the span
   * @param until end, does not belong to it
   * @return earliest first
   */
  public List<StoredShot> takenBetween(Instant from, Instant until) {
    return withFiles(
        session
            .call(
                ShotRows.SELECT
                    + "WHERE captured_ms >= ? AND captured_ms < ? ORDER BY captured_ms, id")
            .millis(from)
            .millis(until)
            .list(ShotRows::read));
  }

  /**
   * The shots that serve a spot but do not say which way they look. The index is named, because in
   * a small ledger SQLite prefers to read every shot.
   *
   * @param most how many to name, 1 or more
   * @return newest first
   */
  public List<StoredShot> withoutFacing(int most) {
    return withFiles(
        session
            .call(
                ShotRows.SELECT
                    + "INDEXED BY shots_without_facing WHERE facing_deg IS NULL"
                    + " AND needs_attention = 0 AND spot_id IS NOT NULL"
                    + " ORDER BY id DESC LIMIT ?")
            .integer(most)
            .list(ShotRows::read));
  }

  /**
   * The shots whose time and place are known, taken in a span of time.
   *
   * @param from start, belongs to the span
   * @param until end, belongs to it
   * @return earliest first
   */
  public List<NearbyShots.PlacedShot> placedBetween(Instant from, Instant until) {
    List<NearbyShots.PlacedShot> placed = new ArrayList<>();
    session
        .call(
            "SELECT captured_ms, captured_rest_ns, geom, position_source, position_error_m,"
                + " position_altitude_m FROM shots WHERE captured_ms >= ? AND captured_ms <= ?"
                + " AND geom IS NOT NULL ORDER BY captured_ms, id")
        .millis(from)
        .millis(until)
        .each(
            row -> {
              Instant instant = row.instant().plusNanos(row.whole());
              Shot.Position position = ShotRows.readPosition(row);
              if (position != null) {
                placed.add(new NearbyShots.PlacedShot(instant, position));
              }
            });
    return placed;
  }

  /**
   * Counts the shots.
   *
   * @return how many there are
   */
  public Counts counts() {
    return session
        .call(
            "SELECT (SELECT count(*) FROM shots),"
                + " (SELECT count(*) FROM shots WHERE needs_attention = 1),"
                + " (SELECT count(*) FROM shots WHERE spot_id IS NOT NULL)")
        .first(row -> new Counts(row.integer(), row.integer(), row.integer()))
        .orElseThrow();
  }

  /**
   * How many shots there are.
   *
   * @param all of any kind
   * @param needingAttention those that wait for the owner
   * @param atSpots those that belong to a spot
   */
  public record Counts(long all, long needingAttention, long atSpots) {}

  private void requireOne(long id, int changed) {
    if (changed == 0) {
      throw LedgerException.notFound("shot", id);
    }
  }

  private List<StoredShot> withFiles(List<StoredShot> shots) {
    return shots.stream().map(this::withFiles).toList();
  }

  private StoredShot withFiles(StoredShot shot) {
    return new StoredShot(
        shot.id(),
        shot.sha256(),
        shot.shot(),
        shot.sun(),
        shot.spotId(),
        session.files().holding(shot.id()));
  }
}
