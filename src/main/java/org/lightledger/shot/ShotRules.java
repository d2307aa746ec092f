package org.lightledger.shot;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.magnetic.MagneticField;
import org.lightledger.geo.magnetic.WorldMagneticModel;
import org.lightledger.shot.zone.ZoneLookup;
import org.lightledger.shot.zone.ZonesAtPlace;

/**
 * Concludes when, where and which way a shot was taken from what its file says. Pure: the same
 * evidence gives the same shot on every machine. Safe for use by several threads when the zone
 * lookup is.
 *
 * <p>The rules of the capture time stand at {@link TimeRules}. A position of exactly 0,0 is what
 * devices write when they have none, and is refused. A direction written as true is taken; one
 * written as magnetic is corrected with the World Magnetic Model; one that does not say which north
 * it means is refused, because Exif (CIPA DC-008, 4.6.6, GPSImgDirectionRef) gives that tag no
 * default.
 *
 * <p>The owner's word comes in before anything is concluded: the clock's reading is corrected
 * first, and a file that holds no usable position is placed by its time, where the owner gave
 * something to place it by ({@link PlaceFromTime}). What the owner says of the shot itself ({@link
 * OwnerWord.About}) is taken in place of what the file says; what was wrong with the file's own
 * statement is then no longer a reason to wait.
 */
public final class ShotRules {
  /** Error of a position whose file states none: a phone's receiver under open sky, from memory. */
  static final double USUAL_POSITION_ERROR_M = 20;

  /**
   * Where the horizontal field is weaker, a compass is not to be trusted ("blackout zone" of the
   * WMM2020 technical report, section 1.7).
   */
  private static final double LEAST_HORIZONTAL_FIELD_NT = 2000;

  private final ZoneLookup zoneLookup;

  /**
   * Rules that find zones with a lookup.
   *
   * @param zoneLookup tells the zones of a place
   */
  public ShotRules(ZoneLookup zoneLookup) {
    this.zoneLookup = zoneLookup;
  }

  /**
   * Concludes a shot.
   *
   * @param evidence what the file says
   * @param ownerZone the zone that the owner gives for shots whose place tells none, or null
   * @return the shot, with every problem the owner should know
   */
  public Shot conclude(Evidence evidence, @Nullable ZoneId ownerZone) {
    return concludeWith(new OwnerWord(ownerZone, ClockCorrection.NONE, null), evidence);
  }

  /**
   * Concludes a shot.
   *
   * @param word what the owner adds
   * @param evidence what the file says
   * @return the shot, with every problem the owner should know
   */
  public Shot concludeWith(OwnerWord word, Evidence evidence) {
    List<Problem> problems = new ArrayList<>(evidence.problems());
    LocalDateTime reading = evidence.localTime();
    ClockCorrection correction = reading == null ? ClockCorrection.NONE : word.clockCorrection();
    Evidence corrected =
        reading == null || correction.isNone()
            ? evidence
            : evidence.withLocalTime(correction.apply(reading));
    Shot.Position position = position(evidence, word.about().position(), problems);
    PlacesByTime places = word.places();
    if (position == null && places != null) {
      return new PlaceFromTime(zoneLookup, places, word)
          .find(corrected, problems)
          .map(
              found ->
                  shot(
                      evidence,
                      corrected,
                      found.position(),
                      found.zones(),
                      word,
                      correction,
                      problems))
          .orElseGet(() -> shot(evidence, corrected, null, null, word, correction, problems));
    }
    ZonesAtPlace zones = position == null ? null : zonesAt(zoneLookup, position);
    return shot(evidence, corrected, position, zones, word, correction, problems);
  }

  private static Shot shot(
      Evidence evidence,
      Evidence corrected,
      Shot.@Nullable Position position,
      @Nullable ZonesAtPlace zones,
      OwnerWord word,
      ClockCorrection correction,
      List<Problem> problems) {
    CaptureTime.Known given = word.about().time();
    CaptureTime time =
        given == null
            ? new TimeRules(corrected, zones, word.cameraZone(), problems).conclude()
            : given;
    Shot.Facing told = word.about().facing();
    Shot.Facing facing;
    if (told == null) {
      facing = facing(evidence, time, position, problems);
    } else {
      facing = told;
      problems.replaceAll(
          problem -> settled(problem, Problem.Kind.DIRECTION_REFUSED, "It is told otherwise."));
    }
    return new Shot(evidence, time, position, facing, problems, correction);
  }

  /**
   * The zones of a position, as far as its error reaches.
   *
   * @param lookup tells the zones of a place
   * @param position the position
   * @return every zone that can hold
   */
  public static ZonesAtPlace zonesAt(ZoneLookup lookup, Shot.Position position) {
    Double errorM = position.errorM();
    return lookup.zonesAt(position.point(), errorM == null ? USUAL_POSITION_ERROR_M : errorM);
  }

  /** A problem of the file that stands in nobody's way any more. */
  static Problem settled(Problem problem, Problem.Kind kind, String how) {
    return problem.kind() == kind
        ? new Problem(Problem.Kind.METADATA_DAMAGED, problem.message() + " " + how)
        : problem;
  }

  private static Shot.@Nullable Position position(
      Evidence evidence, Shot.@Nullable Position told, List<Problem> problems) {
    if (told != null) {
      problems.replaceAll(
          problem ->
              settled(problem, Problem.Kind.POSITION_REFUSED, "The shot is placed otherwise."));
      return told;
    }
    GeoPoint point = evidence.position();
    if (point == null) {
      if (problems.stream().noneMatch(p -> p.kind() == Problem.Kind.POSITION_REFUSED)) {
        problems.add(
            new Problem(
                Problem.Kind.POSITION_MISSING,
                "The file holds no position; place the shot on the map or add a track log."));
      }
      return null;
    }
    if (point.latitudeDeg() == 0 && point.longitudeDeg() == 0) {
      problems.add(
          new Problem(
              Problem.Kind.POSITION_REFUSED,
              "The position of the file is 0,0, which devices write when they have none; place the"
                  + " shot on the map or add a track log."));
      return null;
    }
    return new Shot.Position(
        point, Shot.PositionSource.GPS, evidence.positionErrorM(), evidence.altitudeM());
  }

  private static Shot.@Nullable Facing facing(
      Evidence evidence,
      CaptureTime time,
      Shot.@Nullable Position position,
      List<Problem> problems) {
    Evidence.Direction direction = evidence.direction();
    if (direction == null) {
      if (problems.stream().noneMatch(p -> p.kind() == Problem.Kind.DIRECTION_REFUSED)) {
        problems.add(
            new Problem(
                Problem.Kind.DIRECTION_MISSING,
                "The file does not say which way the camera looked; give the bearing by hand."));
      }
      return null;
    }
    return switch (direction.reference()) {
      case TRUE ->
          new Shot.Facing(
              new Bearing(direction.azimuthDeg()), Shot.FacingSource.TRUE_DIRECTION_TAG);
      case MAGNETIC -> magneticFacing(evidence, direction, time, position, problems);
      case NOT_STATED -> {
        refuse(
            problems,
            "does not say whether true or magnetic north is meant, and the Exif standard has no"
                + " default; the two differ by more than ten degrees in many places",
            direction);
        yield null;
      }
    };
  }

  private static Shot.@Nullable Facing magneticFacing(
      Evidence evidence,
      Evidence.Direction direction,
      CaptureTime time,
      Shot.@Nullable Position position,
      List<Problem> problems) {
    if (position == null) {
      refuse(problems, "is magnetic, and without a place it can not be made true", direction);
      return null;
    }
    Instant when = roughTime(time);
    if (when == null) {
      refuse(problems, "is magnetic, and without a date it can not be made true", direction);
      return null;
    }
    double heightM = position.altitudeM() == null ? 0 : position.altitudeM();
    Optional<MagneticField> field = WorldMagneticModel.field(position.point(), heightM, when);
    if (field.isEmpty()) {
      refuse(
          problems,
          "is magnetic, and the World Magnetic Models at hand cover "
              + WorldMagneticModel.validYears()
              + " only",
          direction);
      return null;
    }
    if (field.get().horizontalNt() < LEAST_HORIZONTAL_FIELD_NT) {
      refuse(
          problems,
          "is magnetic, and so near the magnetic pole a compass is not to be trusted",
          direction);
      return null;
    }
    return new Shot.Facing(
        Bearing.of(direction.azimuthDeg() + field.get().declinationDeg()),
        Shot.FacingSource.MAGNETIC_DIRECTION_TAG);
  }

  private static void refuse(List<Problem> problems, String why, Evidence.Direction direction) {
    problems.add(
        new Problem(
            Problem.Kind.DIRECTION_REFUSED,
            String.format(
                Locale.ROOT,
                "The direction of the file, %.1f degrees, %s; give the bearing by hand.",
                direction.azimuthDeg(),
                why)));
  }

  /**
   * The time to within a day, which is all that the declination needs: it changes by less than a
   * degree in a year outside the polar regions.
   */
  private static @Nullable Instant roughTime(CaptureTime time) {
    if (time instanceof CaptureTime.Known known) {
      return known.instant();
    }
    if (time instanceof CaptureTime.Ambiguous ambiguous) {
      return ambiguous.local().toInstant(ZoneOffset.UTC);
    }
    LocalDateTime local = ((CaptureTime.Unknown) time).local();
    return local == null ? null : local.toInstant(ZoneOffset.UTC);
  }
}
