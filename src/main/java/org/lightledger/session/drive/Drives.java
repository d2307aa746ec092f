package org.lightledger.session.drive;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * How long drives take: the owner's own minutes win, else a route over the roads of a map, else an
 * estimate from the distance. Safe for use by several threads.
 */
public final class Drives {
  private final Map<DriveTable.Leg, Integer> ownMinutes;
  private final List<Roads> roads;

  /**
   * What is known of drives.
   *
   * @param ownMinutes the owner's minutes, 0 or more; where only the way back is told, they count
   *     for both
   * @param roads the roads of each map, the preferred one first; empty for none
   */
  public Drives(Map<DriveTable.Leg, Integer> ownMinutes, List<? extends Roads> roads) {
    this.ownMinutes = Map.copyOf(ownMinutes);
    this.roads = List.copyOf(roads);
  }

  /**
   * A spot that can be reached.
   *
   * @param place the spot
   * @param drive the drive there
   */
  public record Reached(Place place, Drive drive) {}

  /**
   * The drive from one spot to another.
   *
   * @param from where it starts
   * @param to where it ends
   * @return the drive with its source
   */
  public Drive between(Place from, Place to) {
    Integer own = ownMinutes.get(new DriveTable.Leg(from.spotId(), to.spotId()));
    if (own != null) {
      return new Drive(own, DriveSource.OWNER, "Your own minutes.");
    }
    Integer back = ownMinutes.get(new DriveTable.Leg(to.spotId(), from.spotId()));
    if (back != null) {
      return new Drive(back, DriveSource.OWNER, "Your own minutes for the way back.");
    }
    if (from.point().equals(to.point())) {
      return new Drive(0, DriveSource.ROUTED, "The same place.");
    }
    String why = "no map with roads holds it";
    for (Roads region : roads) {
      Roads.Route route = region.between(from.point(), to.point());
      if (route instanceof Roads.Route.Found found) {
        return routed(found);
      }
      why = ((Roads.Route.None) route).why();
    }
    return Estimate.between(from.point(), to.point(), why);
  }

  /**
   * All drives of a session.
   *
   * @param spots its candidates
   * @param meeting where it meets; null when at its first stop
   * @return the drive between each ordered pair, and from the meeting spot to each
   */
  public DriveTable table(List<Place> spots, @Nullable Place meeting) {
    Map<DriveTable.Leg, Drive> between = new HashMap<>();
    Map<Long, Drive> fromMeeting = new HashMap<>();
    for (Place from : spots) {
      for (Place to : spots) {
        if (from.spotId() != to.spotId()) {
          between.put(new DriveTable.Leg(from.spotId(), to.spotId()), between(from, to));
        }
      }
      if (meeting != null) {
        fromMeeting.put(
            from.spotId(),
            meeting.spotId() == from.spotId()
                ? new Drive(0, DriveSource.OWNER, "The session meets there.")
                : between(meeting, from));
      }
    }
    return new DriveTable(between, fromMeeting);
  }

  /**
   * The spots that can be reached within a drive.
   *
   * @param minutes the drive takes at most so long, 0 or more
   * @param from where it starts
   * @param spots which spots are looked at
   * @return those within, the nearest first, with their drives
   * @throws IllegalArgumentException when the minutes are negative
   */
  public List<Reached> within(int minutes, Place from, List<Place> spots) {
    if (minutes < 0) {
      throw new IllegalArgumentException("expected 0 minutes or more, found " + minutes);
    }
    List<Reached> reached = new ArrayList<>();
    for (Place spot : spots) {
      Drive drive =
          spot.spotId() == from.spotId()
              ? new Drive(0, DriveSource.OWNER, "You are there.")
              : between(from, spot);
      if (drive.minutes() <= minutes) {
        reached.add(new Reached(spot, drive));
      }
    }
    reached.sort(
        Comparator.comparingInt((Reached found) -> found.drive().minutes())
            .thenComparing(found -> found.place().spotId()));
    return reached;
  }

  private static Drive routed(Roads.Route.Found route) {
    return new Drive(
        (int) Math.ceil(route.durationS() / 60),
        DriveSource.ROUTED,
        String.format(
            Locale.ROOT,
            "%.1f km over the roads of the map, without traffic; from %.0f m to %.0f m beside a"
                + " road.",
            route.distanceM() / 1000,
            Math.min(route.fromRoadM(), route.toRoadM()),
            Math.max(route.fromRoadM(), route.toRoadM())));
  }
}
