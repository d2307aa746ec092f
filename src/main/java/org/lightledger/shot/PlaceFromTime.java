package org.lightledger.shot;

import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.zone.ZoneLookup;
import org.lightledger.shot.zone.ZonesAtPlace;

/**
 * Places a shot whose file holds no position by its time. Place and time hang on each other here:
 * the place follows from the instant, and the instant may follow from the zone of the place.
 *
 * <p>Where the file (by its offset or GPS time) or the owner (by the time itself or the camera's
 * zone) tells the instant, it is used. The owner's zone is asked before the zone of the place,
 * other than for shots with a position of their own, because here the place is no independent
 * witness. Else the clock's reading is tried with every offset from UTC that a clock on earth has
 * had; the offset is right when the zone of the place that it leads to has it. Exactly one must be,
 * else nothing is said.
 */
final class PlaceFromTime {
  private final ZoneLookup zoneLookup;
  private final PlacesByTime places;
  private final @Nullable ZoneId ownerZone;
  private final CaptureTime.@Nullable Known given;

  PlaceFromTime(ZoneLookup zoneLookup, PlacesByTime places, OwnerWord word) {
    this.zoneLookup = zoneLookup;
    this.places = places;
    this.ownerZone = word.cameraZone();
    this.given = word.about().time();
  }

  /**
   * A place that the time tells.
   *
   * @param position where
   * @param zones the zones that tell the time there, or null when the owner's zone did
   */
  record Found(Shot.Position position, @Nullable ZonesAtPlace zones) {}

  /** Finds the place; the problem of the missing position is settled or gets its reason. */
  Optional<Found> find(Evidence evidence, List<Problem> problems) {
    CaptureTime byFileOrOwner =
        given == null
            ? new TimeRules(evidence, null, ownerZone, new ArrayList<>()).conclude()
            : given;
    LocalDateTime reading = evidence.localTime();
    List<Found> found = new ArrayList<>();
    String reason;
    if (byFileOrOwner instanceof CaptureTime.Known known) {
      reason = place(evidence, known, found);
    } else if (reading == null) {
      reason = "Without a time nothing can place the shot.";
    } else {
      reason = placeByEveryOffset(evidence, reading, found);
    }
    if (found.size() == 1) {
      problems.replaceAll(
          problem ->
              ShotRules.settled(
                  problem, Problem.Kind.POSITION_REFUSED, "The shot is placed by its time."));
      problems.removeIf(problem -> problem.kind() == Problem.Kind.POSITION_MISSING);
      return Optional.of(found.get(0));
    }
    problems.removeIf(problem -> problem.kind() == Problem.Kind.POSITION_MISSING);
    problems.add(
        new Problem(
            Problem.Kind.POSITION_MISSING,
            "The file holds no usable position. " + reason + " Place the shot on the map."));
    return Optional.empty();
  }

  private String placeByEveryOffset(Evidence evidence, LocalDateTime reading, List<Found> found) {
    String reason = "Nothing places the shot at its time in any time zone.";
    for (ZoneOffset offset : GpsWitness.OFFSETS_ON_EARTH) {
      place(
          evidence,
          new CaptureTime.Known(reading.toInstant(offset), offset, CaptureTime.Source.PLACE_ZONE),
          found);
    }
    return found.size() < 2
        ? reason
        : "Its clock reading fits "
            + found.size()
            + " moments in different time zones; give the zone.";
  }

  /** Adds the place of an instant when the rules, knowing the place, conclude that instant. */
  private String place(Evidence evidence, CaptureTime.Known time, List<Found> found) {
    Placement placement = places.at(time.instant());
    if (placement instanceof Placement.Refused refused) {
      return refused.message();
    }
    Shot.Position position = ((Placement.Placed) placement).position();
    ZonesAtPlace zones =
        time.source() == CaptureTime.Source.OWNER ? null : ShotRules.zonesAt(zoneLookup, position);
    if (given != null) {
      found.add(new Found(position, zones));
      return "";
    }
    CaptureTime there = new TimeRules(evidence, zones, ownerZone, new ArrayList<>()).conclude();
    if (there instanceof CaptureTime.Known known && known.instant().equals(time.instant())) {
      found.add(new Found(position, zones));
      return "";
    }
    return "At the place of its time the time itself is in doubt.";
  }
}
