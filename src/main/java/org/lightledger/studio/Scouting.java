package org.lightledger.studio;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Rehearsal;
import org.lightledger.ask.ScoutingRun;
import org.lightledger.session.drive.Drive;
import org.lightledger.session.drive.Drives;
import org.lightledger.session.drive.Place;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SunEphemeris;

/** The planned moments that are to be rehearsed in one outing, with the drives between them. */
public final class Scouting {
  private final List<Stop> stops;
  private final List<List<Drive>> drives = new ArrayList<>();

  /**
   * A planned moment at a spot.
   *
   * @param spot the spot
   * @param zone its zone
   * @param skyline what stands around it; null when nothing is known
   * @param at when
   */
  public record Stop(Spot spot, ZoneId zone, @Nullable Skyline skyline, Instant at) {}

  /**
   * What is to be rehearsed.
   *
   * @param stops the planned moments in any order, one or more
   * @param known what is known of drives
   */
  public Scouting(List<Stop> stops, Drives known) {
    this.stops = stops.stream().sorted(Comparator.comparing(Stop::at)).toList();
    for (Stop from : this.stops) {
      drives.add(this.stops.stream().map(to -> known.between(place(from), place(to))).toList());
    }
  }

  private static Place place(Stop stop) {
    return new Place(stop.spot().id(), stop.spot().position());
  }

  /**
   * The planned moments.
   *
   * @return the earlier first; free hours are on the clock of the first
   */
  public List<Stop> stops() {
    return stops;
  }

  /**
   * The drive to a visit.
   *
   * @param run the outing
   * @param visit the place of the visit in it
   * @return the drive, or null for the first visit, whose drive starts at a place not known
   */
  public @Nullable Drive driveTo(ScoutingRun.Run run, int visit) {
    return visit == 0
        ? null
        : drives.get(run.visits().get(visit - 1).plan()).get(run.visits().get(visit).plan());
  }

  /**
   * Looks for outings.
   *
   * @param sun knows where the sun is
   * @param free when the owner could scout, on the clock of the first planned moment
   * @param now no visit begins before it
   * @param stayMinutes how long each visit takes, minutes
   * @return the best of each day, best first; plans are numbered as the stops are
   * @throws IllegalArgumentException naming what was found and what was expected
   */
  public List<ScoutingRun.Run> runs(
      SunEphemeris sun, Rehearsal.Free free, Instant now, int stayMinutes) {
    return new ScoutingRun(sun)
        .runs(
            stops.stream()
                .map(
                    stop ->
                        new Rehearsal.Plan(
                            stop.spot().position(), stop.zone(), stop.skyline(), stop.at()))
                .toList(),
            free,
            now,
            stayMinutes,
            (from, to) -> drives.get(from).get(to).minutes());
  }
}
