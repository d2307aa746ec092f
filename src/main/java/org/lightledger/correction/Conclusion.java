package org.lightledger.correction;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.lightledger.indexing.ShotSun;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.NearbyShots;
import org.lightledger.shot.OwnerWord;
import org.lightledger.shot.PlacesByTime;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;
import org.lightledger.shot.ShotRules;
import org.lightledger.shot.view.Sighting;
import org.lightledger.shot.zone.ZoneLookup;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredShot;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/**
 * Concludes a shot anew from its stored evidence and the owner's word, the earlier and the new.
 *
 * <p>What rests on something that changes does not stay as if nothing had happened: a place that
 * was found by the time is not kept under another time, and a facing that was told by the sun is
 * not kept under another sun.
 */
final class Conclusion {
  /**
   * A facing by the sun is told again when the sun has moved farther: a fifth of the half degree to
   * which a tapped sun tells it; degrees, own choice.
   */
  private static final double SAME_SUN_DEG = 0.1;

  /** A reading without a zone can lie so far from the same reading in UTC. */
  private static final Duration WIDEST_OFFSET =
      Duration.ofSeconds(ZoneOffset.MAX.getTotalSeconds());

  private static final NearbyShots.Limits NEARBY = NearbyShots.Limits.standard();

  private final LedgerSession session;
  private final ShotRules rules;
  private final TimeByWord times;
  private final SunEphemeris sun;

  Conclusion(LedgerSession session, ZoneLookup zones, SunEphemeris sun) {
    this.session = session;
    this.rules = new ShotRules(zones);
    this.times = new TimeByWord(zones);
    this.sun = sun;
  }

  /**
   * A shot as it is now.
   *
   * @param shot what is concluded
   * @param sun where the sun stood, or null
   * @param notes what else changed
   */
  record Now(Shot shot, @Nullable SunDirection sun, List<String> notes) {}

  Now of(StoredShot stored, Correction correction) throws RefusedException {
    Shot before = stored.shot();
    TimeWord time = correction.time();
    TimeByWord.Told told = time == null ? TimeByWord.standing(before) : times.told(before, time);
    PlaceWord place = correction.place();
    PlacesByTime places = places(before, place, told);
    Shot.Position position = position(before, place);
    Shot.Facing standing = standingFacing(before);
    Shot after = conclude(before, told, places, position, standing);
    if (places != null && after.position() == null) {
      throw new RefusedException(reason(after, Problem.Kind.POSITION_MISSING));
    }
    requireSameTime(before, after, place);
    SunDirection direction = sunOf(after);
    List<String> notes = new ArrayList<>();
    Shot.Facing facing = facing(stored, direction, standing, correction.facing(), notes);
    if (!Objects.equals(facing, standing)) {
      after = conclude(before, told, places, position, facing);
    }
    if (after.equals(before) && Objects.equals(direction, stored.sun())) {
      throw new RefusedException("It was so already; nothing changed.");
    }
    return new Now(after, direction, notes);
  }

  /** A shot whose files say more than when it was concluded; the owner's word stands. */
  Now again(StoredShot stored) {
    Shot before = stored.shot();
    Shot after =
        conclude(
            before,
            TimeByWord.standing(before),
            null,
            position(before, null),
            standingFacing(before));
    return new Now(after, ShotSun.of(sun, after), List.of());
  }

  private Shot conclude(
      Shot before,
      TimeByWord.Told told,
      @Nullable PlacesByTime places,
      Shot.@Nullable Position position,
      Shot.@Nullable Facing facing) {
    OwnerWord.About about = new OwnerWord.About(told.time(), position, facing);
    return rules.concludeWith(new OwnerWord(null, told.clock(), places, about), before.evidence());
  }

  private @Nullable PlacesByTime places(Shot before, @Nullable PlaceWord word, TimeByWord.Told told)
      throws RefusedException {
    if (word == null || word instanceof PlaceWord.Point) {
      return null;
    }
    Shot.Position position = before.position();
    if (position != null && position.source() == Shot.PositionSource.GPS) {
      throw new RefusedException(
          "The file holds a position of its own; if it is wrong, place the shot on the map.");
    }
    return word instanceof PlaceWord.Track track ? track.places() : nearby(before, told);
  }

  /** The shots that can be witnesses, whichever zone the camera's clock was set to. */
  private PlacesByTime nearby(Shot before, TimeByWord.Told told) throws RefusedException {
    CaptureTime.Known given = told.time();
    LocalDateTime reading = before.evidence().localTime();
    Instant gps = before.evidence().gpsInstant();
    Instant about;
    Duration reach = NEARBY.within();
    if (given != null) {
      about = given.instant();
    } else if (reading != null) {
      about = told.clock().apply(reading).toInstant(ZoneOffset.UTC);
      reach = reach.plus(WIDEST_OFFSET);
    } else if (gps != null) {
      about = gps;
    } else {
      throw new RefusedException("Without a time no other shot can place it; give the time first.");
    }
    return new NearbyShots(
        session.shots().placedBetween(about.minus(reach), about.plus(reach)), NEARBY);
  }

  /** The new point, or what the owner's earlier word or logs told; null for the file's own. */
  private static Shot.@Nullable Position position(Shot before, @Nullable PlaceWord word) {
    if (word instanceof PlaceWord.Point point) {
      return new Shot.Position(point.point(), Shot.PositionSource.OWNER, null);
    }
    Shot.Position position = before.position();
    return word == null && position != null && position.source() != Shot.PositionSource.GPS
        ? position
        : null;
  }

  private static void requireSameTime(Shot before, Shot after, @Nullable PlaceWord place)
      throws RefusedException {
    Shot.Position position = before.position();
    boolean byTime =
        position != null
            && (position.source() == Shot.PositionSource.TRACK
                || position.source() == Shot.PositionSource.NEARBY_SHOT);
    if (place == null && byTime && !Objects.equals(instant(before), instant(after))) {
      throw new RefusedException(
          "It was placed by its time, so another time means another place: send the track log"
              + " together with the clock's correction, or place it on the map first.");
    }
  }

  private static @Nullable Instant instant(Shot shot) {
    return shot.time() instanceof CaptureTime.Known known ? known.instant() : null;
  }

  private @Nullable SunDirection sunOf(Shot shot) throws RefusedException {
    try {
      return ShotSun.of(sun, shot);
    } catch (IllegalArgumentException e) {
      throw new RefusedException(
          "Nobody knows where the sun stood at that time; check the year: " + instant(shot) + ".");
    }
  }

  private Shot.@Nullable Facing facing(
      StoredShot stored,
      @Nullable SunDirection direction,
      Shot.@Nullable Facing standing,
      @Nullable FacingWord word,
      List<String> notes)
      throws RefusedException {
    if (word instanceof FacingWord.Looked looked) {
      return new Shot.Facing(looked.bearing(), Shot.FacingSource.OWNER);
    }
    if (word instanceof FacingWord.Tapped tapped) {
      Sighting sighting = FacingByTaps.sight(stored.shot().evidence(), direction, tapped.taps());
      if (sighting instanceof Sighting.Found found) {
        return new Shot.Facing(found.facing(), FacingByTaps.source(tapped.taps()));
      }
      throw new RefusedException(((Sighting.Refused) sighting).reason());
    }
    if (standing != null
        && standing.source() != Shot.FacingSource.OWNER
        && !isSameSun(stored.sun(), direction)) {
      notes.add(
          "Its direction was told by the sun of the old time and place and is not kept; tap the sun"
              + " or the shadow again.");
      return null;
    }
    return standing;
  }

  private static boolean isSameSun(@Nullable SunDirection one, @Nullable SunDirection other) {
    return one != null && other != null && one.gapDeg(other) <= SAME_SUN_DEG;
  }

  private static Shot.@Nullable Facing standingFacing(Shot before) {
    Shot.Facing facing = before.facing();
    return facing == null
            || facing.source() == Shot.FacingSource.TRUE_DIRECTION_TAG
            || facing.source() == Shot.FacingSource.MAGNETIC_DIRECTION_TAG
        ? null
        : facing;
  }

  private static String reason(Shot shot, Problem.Kind kind) {
    return shot.problems().stream()
        .filter(problem -> problem.kind() == kind)
        .map(Problem::message)
        .findFirst()
        .orElse("Nothing tells where it was taken.");
  }
}
