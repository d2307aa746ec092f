package org.lightledger.store;

import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.ClockCorrection;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Exposure;
import org.lightledger.shot.NearbyShots;
import org.lightledger.shot.Shot;
import org.lightledger.spot.Observation;
import org.lightledger.sun.SunDirection;

/** The scouting shots, each once, however many files hold it. */
public final class ShotStore {
  /** In the order of {@link Evidence}. */
  private static final String EVIDENCE =
      "file_format, file_local_time, file_offset_s, file_gps_instant, file_gps_time_of_day,"
          + " file_latitude_deg, file_longitude_deg, file_altitude_m, file_position_error_m,"
          + " file_direction_deg, file_direction_north, file_exposure_time_s, file_f_number,"
          + " file_iso_speed, file_focal_length_35mm_mm, file_orientation, file_width_px,"
          + " file_height_px, file_camera, file_problems, ";

  private static final String TIME_DOUBT = "time_local, time_candidates, time_reason, ";
  private static final String PLACE_AND_WAY =
      "geom, position_source, position_error_m, position_altitude_m, facing_deg, facing_source,"
          + " problems, clock_correction_ms, ";
  private static final String SUN =
      "sun_azimuth_deg, sun_geometric_altitude_deg, sun_apparent_altitude_deg";

  /** What {@link #fill} writes, in its order. */
  private static final String WRITTEN =
      EVIDENCE
          + "time_state, captured_ms, captured_rest_ns, captured_offset_s, captured_at,"
          + " time_source, "
          + TIME_DOUBT
          + PLACE_AND_WAY
          + "needs_attention, ev100, "
          + SUN;

  private static final String PARAMETERS = WRITTEN.replaceAll("\\w+", "?");

  private static final String INSERT =
      "INSERT INTO shots (sha256, spot_id, dropped_spot_id, "
          + WRITTEN
          + ") VALUES (?, ?, ?, "
          + PARAMETERS
          + ") RETURNING id";
  private static final String UPDATE =
      "UPDATE shots SET (" + WRITTEN + ") = (" + PARAMETERS + ") WHERE id = ?";

  /** What {@link #read} reads, in its order. */
  private static final String SELECT =
      "SELECT id, sha256, spot_id, "
          + EVIDENCE
          + "captured_ms, captured_rest_ns, captured_offset_s, time_source, "
          + TIME_DOUBT
          + PLACE_AND_WAY
          + "sun_azimuth_deg IS NOT NULL, "
          + SUN
          + " FROM shots ";

  private static final String OBSERVATION =
      " id, captured_ms, captured_rest_ns, captured_offset_s, sun_azimuth_deg,"
          + " sun_geometric_altitude_deg, sun_apparent_altitude_deg, facing_deg, ev100"
          + " FROM shots WHERE sun_azimuth_deg IS NOT NULL AND ";
  private static final String OBSERVATION_ORDER =
      " ORDER BY spot_id, captured_ms, captured_rest_ns";

  private static final int NANOS_PER_MILLI = 1_000_000;

  /**
   * From so many spots on, all observations are read in one pass. A look-up costs about 5 µs and an
   * observation in the pass 0.7 µs, so the two cost the same in a ledger of 70,000 observations.
   */
  private static final int MANY_SPOTS = 10_000;

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
    Call call = session.call(INSERT).text(sha256).integer(spotId).integer(droppedId);
    return fill(call, shot, sun).number();
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
    requireOne(id, fill(session.call(UPDATE), shot, sun).integer(id).run());
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
        .call(SELECT + "WHERE id = ?")
        .integer(id)
        .first(ShotStore::read)
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
            .call(SELECT + "WHERE spot_id = ? ORDER BY captured_ms, captured_rest_ns, id")
            .integer(spotId)
            .list(ShotStore::read));
  }

  /**
   * The shots that wait for the owner: time or place missing or doubtful.
   *
   * @return in the order in which they came
   */
  public List<StoredShot> needingAttention() {
    return withFiles(
        session.call(SELECT + "WHERE needs_attention = 1 ORDER BY id").list(ShotStore::read));
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
            .call(SELECT + "WHERE captured_ms >= ? AND captured_ms < ? ORDER BY captured_ms, id")
            .millis(from)
            .millis(until)
            .list(ShotStore::read));
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
                SELECT
                    + "INDEXED BY shots_without_facing WHERE facing_deg IS NULL"
                    + " AND needs_attention = 0 AND spot_id IS NOT NULL"
                    + " ORDER BY id DESC LIMIT ?")
            .integer(most)
            .list(ShotStore::read));
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
              Shot.Position position = readPosition(row);
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

  /**
   * What the shots of a spot tell about its light: those with a known time and place.
   *
   * @param spotId the spot
   * @return earliest first
   */
  public List<Observation> observations(long spotId) {
    return session
        .call("SELECT" + OBSERVATION + "spot_id = ?" + OBSERVATION_ORDER)
        .integer(spotId)
        .list(ShotStore::readObservation);
  }

  /**
   * Where the shots of a spot look that tell about its light.
   *
   * @param spotId the spot
   * @return of each shot with a known time, place and facing its facing, earliest first
   */
  public List<Bearing> directions(long spotId) {
    return session
        .call(
            "SELECT facing_deg FROM shots WHERE spot_id = ? AND sun_azimuth_deg IS NOT NULL"
                + " AND facing_deg IS NOT NULL ORDER BY captured_ms, captured_rest_ns")
        .integer(spotId)
        .list(row -> new Bearing(row.real()));
  }

  /**
   * What the shots of many spots tell about their light.
   *
   * @param spotIds the spots
   * @return for each spot with any observation, its observations, earliest first
   */
  public Map<Long, List<Observation>> observations(Collection<Long> spotIds) {
    Map<Long, List<Observation>> found = new HashMap<>();
    if (spotIds.size() < MANY_SPOTS) {
      for (Long spotId : spotIds) {
        List<Observation> observations = observations(spotId);
        if (!observations.isEmpty()) {
          found.put(spotId, observations);
        }
      }
    } else {
      found = allObservations();
      found.keySet().retainAll(new HashSet<>(spotIds));
    }
    return found;
  }

  /**
   * What the shots of all spots tell about their light.
   *
   * @return for each spot with any observation, its observations, earliest first
   */
  public Map<Long, List<Observation>> allObservations() {
    Map<Long, List<Observation>> found = new HashMap<>();
    session
        .call("SELECT spot_id," + OBSERVATION + "spot_id IS NOT NULL" + OBSERVATION_ORDER)
        .each(
            row ->
                found
                    .computeIfAbsent(row.integer(), spotId -> new ArrayList<>())
                    .add(readObservation(row)));
    return found;
  }

  private static Observation readObservation(Row row) throws SQLException {
    return new Observation(
        row.integer(), readMoment(row), readSun(row), bearing(row.realOrNull()), row.realOrNull());
  }

  private static OffsetDateTime readMoment(Row row) throws SQLException {
    Instant instant = row.instant().plusNanos(row.whole());
    return instant.atOffset(ZoneOffset.ofTotalSeconds(row.whole()));
  }

  private static SunDirection readSun(Row row) throws SQLException {
    return new SunDirection(new Bearing(row.real()), row.real(), row.real());
  }

  private static @Nullable Bearing bearing(@Nullable Double trueDeg) {
    return trueDeg == null ? null : new Bearing(trueDeg);
  }

  private void requireOne(long id, int changed) {
    if (changed == 0) {
      throw LedgerException.notFound("shot", id);
    }
  }

  private static Call fill(Call call, Shot shot, @Nullable SunDirection sun) {
    Shot.Position position = shot.position();
    Shot.Facing facing = shot.facing();
    fillEvidence(call, shot.evidence());
    fillTime(call, shot.time());
    return call.blob(position == null ? null : GeoPackageGeometry.write(position.point()))
        .name(position == null ? null : position.source())
        .real("position error in metres", position == null ? null : position.errorM())
        .real("altitude in metres", position == null ? null : position.altitudeM())
        .real("facing in degrees", facing == null ? null : facing.bearing().trueDeg())
        .name(facing == null ? null : facing.source())
        .text(Json.ofProblems(shot.problems()))
        .integer(shot.clockCorrection().toAdd().toMillis())
        .flag(shot.needsAttention())
        .real("EV100", shot.evidence().exposure().ev100())
        .real("sun azimuth in degrees", sun == null ? null : sun.azimuth().trueDeg())
        .real("sun altitude in degrees", sun == null ? null : sun.geometricAltitudeDeg())
        .real("sun altitude in degrees", sun == null ? null : sun.apparentAltitudeDeg());
  }

  private static void fillEvidence(Call call, Evidence evidence) {
    ZoneOffset offset = evidence.offset();
    GeoPoint place = evidence.position();
    Evidence.Direction direction = evidence.direction();
    Exposure exposure = evidence.exposure();
    call.text(evidence.format())
        .textOf(evidence.localTime())
        .integer(offset == null ? null : offset.getTotalSeconds())
        .textOf(evidence.gpsInstant())
        .textOf(evidence.gpsTimeOfDay())
        .real("latitude in degrees", place == null ? null : place.latitudeDeg())
        .real("longitude in degrees", place == null ? null : place.longitudeDeg())
        .real("altitude in metres", evidence.altitudeM())
        .real("position error in metres", evidence.positionErrorM())
        .real("direction in degrees", direction == null ? null : direction.azimuthDeg())
        .name(direction == null ? null : direction.reference())
        .real("exposure time in seconds", exposure.exposureTimeS())
        .real("f-number", exposure.fNumber())
        .real("ISO speed", exposure.isoSpeed())
        .real("focal length in millimetres", evidence.focalLength35mmMm())
        .integer(evidence.orientation())
        .integer(evidence.widthPx())
        .integer(evidence.heightPx())
        .text(evidence.camera())
        .text(Json.ofProblems(evidence.problems()));
  }

  private static void fillTime(Call call, CaptureTime time) {
    if (time instanceof CaptureTime.Known known) {
      call.text("KNOWN")
          .millis(known.instant())
          .integer(known.instant().getNano() % NANOS_PER_MILLI)
          .integer(known.offset().getTotalSeconds())
          .textOf(known.local())
          .name(known.source());
      fillDoubt(call, null, null, null);
    } else if (time instanceof CaptureTime.Ambiguous ambiguous) {
      fillNoInstant(call.text("AMBIGUOUS"));
      fillDoubt(call, ambiguous.local(), Json.ofTexts(ambiguous.candidates()), ambiguous.reason());
    } else if (time instanceof CaptureTime.Unknown unknown) {
      fillNoInstant(call.text("UNKNOWN"));
      fillDoubt(call, unknown.local(), null, unknown.reason());
    }
  }

  private static void fillNoInstant(Call call) {
    call.text(null).text(null).text(null).text(null).text(null);
  }

  private static void fillDoubt(
      Call call,
      @Nullable LocalDateTime local,
      @Nullable String candidates,
      @Nullable String reason) {
    call.textOf(local).text(candidates).text(reason);
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

  /** Reads a row of {@link #SELECT}; the files are added when the result is closed. */
  private static StoredShot read(Row row) throws SQLException {
    long id = row.integer();
    try {
      String sha256 = row.text();
      Long spotId = row.integerOrNull();
      Shot shot =
          new Shot(
              readEvidence(row),
              readTime(row),
              readPosition(row),
              readFacing(row),
              Json.problems(row.text()),
              new ClockCorrection(Duration.ofMillis(row.integer())));
      boolean sunKnown = row.flag();
      return new StoredShot(id, sha256, shot, sunKnown ? readSun(row) : null, spotId, List.of());
    } catch (IllegalArgumentException | DateTimeException e) {
      throw LedgerException.foreign("shot " + id, e);
    }
  }

  private static Evidence readEvidence(Row row) throws SQLException {
    return new Evidence(
        row.text(),
        localTime(row.textOrNull()),
        readOffset(row),
        gpsInstant(row.textOrNull()),
        gpsTimeOfDay(row.textOrNull()),
        readPlace(row),
        row.realOrNull(),
        row.realOrNull(),
        readDirection(row),
        new Exposure(row.realOrNull(), row.realOrNull(), row.realOrNull()),
        row.realOrNull(),
        row.whole(),
        row.wholeOrNull(),
        row.wholeOrNull(),
        row.textOrNull(),
        Json.problems(row.text()));
  }

  private static @Nullable ZoneOffset readOffset(Row row) throws SQLException {
    Integer seconds = row.wholeOrNull();
    return seconds == null ? null : ZoneOffset.ofTotalSeconds(seconds);
  }

  private static @Nullable LocalDateTime localTime(@Nullable String text) {
    return text == null ? null : LocalDateTime.parse(text);
  }

  private static @Nullable Instant gpsInstant(@Nullable String text) {
    return text == null ? null : Instant.parse(text);
  }

  private static @Nullable LocalTime gpsTimeOfDay(@Nullable String text) {
    return text == null ? null : LocalTime.parse(text);
  }

  private static @Nullable GeoPoint readPlace(Row row) throws SQLException {
    Double latitude = row.realOrNull();
    Double longitude = row.realOrNull();
    return latitude == null || longitude == null ? null : new GeoPoint(latitude, longitude);
  }

  private static Evidence.@Nullable Direction readDirection(Row row) throws SQLException {
    Double azimuth = row.realOrNull();
    String reference = row.textOrNull();
    return azimuth == null || reference == null
        ? null
        : new Evidence.Direction(azimuth, Evidence.North.valueOf(reference));
  }

  private static CaptureTime readTime(Row row) throws SQLException {
    OffsetDateTime moment = readMoment(row);
    String source = row.textOrNull();
    LocalDateTime local = localTime(row.textOrNull());
    String candidates = row.textOrNull();
    String reason = row.textOrNull();
    if (source != null) {
      return new CaptureTime.Known(
          moment.toInstant(), moment.getOffset(), CaptureTime.Source.valueOf(source));
    }
    if (local != null && candidates != null && reason != null) {
      return new CaptureTime.Ambiguous(
          local, Json.texts(candidates).stream().map(OffsetDateTime::parse).toList(), reason);
    }
    return new CaptureTime.Unknown(local, String.valueOf(reason));
  }

  private static Shot.@Nullable Position readPosition(Row row) throws SQLException {
    byte[] place = row.blobOrNull();
    String source = row.textOrNull();
    Double errorM = row.realOrNull();
    Double altitudeM = row.realOrNull();
    return place == null || source == null
        ? null
        : new Shot.Position(
            GeoPackageGeometry.readPoint(place),
            Shot.PositionSource.valueOf(source),
            errorM,
            altitudeM);
  }

  private static Shot.@Nullable Facing readFacing(Row row) throws SQLException {
    Bearing bearing = bearing(row.realOrNull());
    String source = row.textOrNull();
    return bearing == null || source == null
        ? null
        : new Shot.Facing(bearing, Shot.FacingSource.valueOf(source));
  }
}
