package org.lightledger.shot;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;

/**
 * What an image file says about itself, before any conclusion. Whatever the file does not say, or
 * says impossibly, is null here and, where it matters, a {@link Problem}.
 *
 * @param format the file's format by its content, such as "JPEG"
 * @param localTime the camera clock's reading at the exposure
 * @param offset the offset from UTC written beside it
 * @param gpsInstant the GPS date and time, UTC
 * @param gpsTimeOfDay the GPS time, UTC, also when its date is missing or impossible
 * @param position where the camera stood
 * @param altitudeM height above sea level, metres
 * @param positionErrorM horizontal error, metres, greater than 0
 * @param direction where the camera looked
 * @param exposure exposure settings
 * @param focalLength35mmMm focal length in 35 mm equivalent, millimetres, greater than 0
 * @param orientation Exif orientation in 1..8; 1 when the file does not say
 * @param widthPx stored width, pixels, before orientation
 * @param heightPx stored height, pixels, before orientation
 * @param camera make and model
 * @param problems what was wrong with the file's own statements
 */
public record Evidence(
    String format,
    @Nullable LocalDateTime localTime,
    @Nullable ZoneOffset offset,
    @Nullable Instant gpsInstant,
    @Nullable LocalTime gpsTimeOfDay,
    @Nullable GeoPoint position,
    @Nullable Double altitudeM,
    @Nullable Double positionErrorM,
    @Nullable Direction direction,
    Exposure exposure,
    @Nullable Double focalLength35mmMm,
    int orientation,
    @Nullable Integer widthPx,
    @Nullable Integer heightPx,
    @Nullable String camera,
    List<Problem> problems) {

  /** Keeps an own copy of the problems. */
  public Evidence {
    problems = List.copyOf(problems);
  }

  /** The same evidence with another reading of the camera's clock. */
  Evidence withLocalTime(LocalDateTime reading) {
    return withTime(reading, offset);
  }

  /**
   * The same with another time.
   *
   * @param newTime the camera clock's reading
   * @param newOffset the offset from UTC beside it, or null
   * @return what is said then
   */
  public Evidence withTime(LocalDateTime newTime, @Nullable ZoneOffset newOffset) {
    return new Evidence(
        format,
        newTime,
        newOffset,
        gpsInstant,
        gpsTimeOfDay,
        position,
        altitudeM,
        positionErrorM,
        direction,
        exposure,
        focalLength35mmMm,
        orientation,
        widthPx,
        heightPx,
        camera,
        problems);
  }

  /**
   * The same with other problems.
   *
   * @param newProblems what was wrong
   * @return what is said then
   */
  public Evidence withProblems(List<Problem> newProblems) {
    return new Evidence(
        format,
        localTime,
        offset,
        gpsInstant,
        gpsTimeOfDay,
        position,
        altitudeM,
        positionErrorM,
        direction,
        exposure,
        focalLength35mmMm,
        orientation,
        widthPx,
        heightPx,
        camera,
        newProblems);
  }

  /**
   * What two files of one shot say together. Nothing that this file says is changed; what it does
   * not say is taken from the other: the offset when both clocks read the same, GPS time, position
   * with its height and error, direction, a complete exposure, focal length. A problem about
   * something that the other settles goes away.
   *
   * @param other what the other file says
   * @return this, filled
   */
  public Evidence filledFrom(Evidence other) {
    boolean takesTime = gpsInstant == null && gpsTimeOfDay == null;
    boolean takesPlace = position == null && other.position != null;
    boolean takesDirection = direction == null && other.direction != null;
    boolean takesExposure = exposure.ev100() == null && other.exposure.ev100() != null;
    List<Problem> left = new ArrayList<>(problems);
    left.removeIf(
        problem ->
            switch (problem.kind()) {
              case POSITION_REFUSED -> takesPlace;
              case DIRECTION_REFUSED -> takesDirection;
              case EXPOSURE_INCOMPLETE -> takesExposure;
              default -> false;
            });
    return new Evidence(
        format,
        localTime,
        offset == null && Objects.equals(localTime, other.localTime) ? other.offset : offset,
        takesTime ? other.gpsInstant : gpsInstant,
        takesTime ? other.gpsTimeOfDay : gpsTimeOfDay,
        takesPlace ? other.position : position,
        takesPlace ? other.altitudeM : altitudeM,
        takesPlace ? other.positionErrorM : positionErrorM,
        takesDirection ? other.direction : direction,
        takesExposure ? other.exposure : exposure,
        focalLength35mmMm == null ? other.focalLength35mmMm : focalLength35mmMm,
        orientation,
        widthPx,
        heightPx,
        camera,
        left);
  }

  /**
   * A direction as written.
   *
   * @param azimuthDeg degrees clockwise from the reference, in [0, 360)
   * @param reference which north is meant
   */
  public record Direction(double azimuthDeg, North reference) {}

  /** Which north a direction is counted from. */
  public enum North {
    /** The pole of the earth's axis. */
    TRUE,
    /** The needle's north. */
    MAGNETIC,
    /** The file does not say. */
    NOT_STATED
  }
}
