package org.lightledger.store;

import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.ClockCorrection;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Exposure;
import org.lightledger.shot.Shot;
import org.lightledger.spot.Observation;
import org.lightledger.sun.SunDirection;

/**
 * A shot as a row of the ledger: which columns, what is written to them and what is read back. The
 * order of the columns is the order of filling and of reading.
 */
final class ShotRows {
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

  static final String INSERT =
      "INSERT INTO shots (sha256, spot_id, dropped_spot_id, "
          + WRITTEN
          + ") VALUES (?, ?, ?, "
          + PARAMETERS
          + ") RETURNING id";
  static final String UPDATE =
      "UPDATE shots SET (" + WRITTEN + ") = (" + PARAMETERS + ") WHERE id = ?";

  /** What {@link #read} reads, in its order. */
  static final String SELECT =
      "SELECT id, sha256, spot_id, "
          + EVIDENCE
          + "captured_ms, captured_rest_ns, captured_offset_s, time_source, "
          + TIME_DOUBT
          + PLACE_AND_WAY
          + "sun_azimuth_deg IS NOT NULL, "
          + SUN
          + " FROM shots ";

  static final String OBSERVATION =
      " id, captured_ms, captured_rest_ns, captured_offset_s, sun_azimuth_deg,"
          + " sun_geometric_altitude_deg, sun_apparent_altitude_deg, facing_deg, ev100"
          + " FROM shots WHERE sun_azimuth_deg IS NOT NULL AND ";
  static final String OBSERVATION_ORDER = " ORDER BY spot_id, captured_ms, captured_rest_ns";

  private static final int NANOS_PER_MILLI = 1_000_000;

  private ShotRows() {}

  static Call fill(Call call, Shot shot, @Nullable SunDirection sun) {
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

  static Observation readObservation(Row row) throws SQLException {
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

  /** Reads a row of {@link #SELECT}; the files are added when the result is closed. */
  static StoredShot read(Row row) throws SQLException {
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

  static Shot.@Nullable Position readPosition(Row row) throws SQLException {
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
