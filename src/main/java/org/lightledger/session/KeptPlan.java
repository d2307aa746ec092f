package org.lightledger.session;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Sky;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;

/**
 * The plan of a session as the owner keeps it. What the light is at its times is asked of the stock
 * whenever it is shown, so that a better skyline shows at once.
 *
 * @param madeAt when it was made
 * @param sky the sky it was made for
 * @param byHand whether the order is the owner's
 * @param callTime when all meet
 * @param end when it ends
 * @param meeting where all meet
 * @param stops in order, one or more
 */
public record KeptPlan(
    Instant madeAt,
    Sky sky,
    boolean byHand,
    Instant callTime,
    Instant end,
    Meeting meeting,
    List<Stop> stops) {

  /** Checks the times and keeps an own copy of the stops. */
  public KeptPlan {
    stops = List.copyOf(stops);
    if (stops.isEmpty()) {
      throw new IllegalArgumentException("expected a plan with a stop, found none");
    }
    Instant before = callTime;
    for (Stop stop : stops) {
      if (stop.arrive().isBefore(before)) {
        throw new IllegalArgumentException(
            "expected stops one after the other, found an arrival at "
                + stop.arrive()
                + " before "
                + before);
      }
      before = stop.leave();
    }
    if (end.isBefore(before)) {
      throw new IllegalArgumentException(
          "expected an end at " + before + " or later, found " + end);
    }
  }

  /**
   * Whether a client would be told the same: when and where all meet, the stops with their times
   * and outfits, and the end.
   *
   * @param other another plan
   * @return true when nothing of that differs
   */
  public boolean tellsTheSameAs(KeptPlan other) {
    return callTime.equals(other.callTime)
        && end.equals(other.end)
        && meeting.equals(other.meeting)
        && told().equals(other.told());
  }

  private List<List<Object>> told() {
    return stops.stream()
        .map(
            stop ->
                List.<Object>of(
                    stop.spotId(), stop.arrive(), stop.leave(), stop.outfit(), stop.changes()))
        .toList();
  }

  /** The highest number of an outfit that is worn. */
  private int outfits() {
    int most = 1;
    for (Stop stop : stops) {
      most = Math.max(most, stop.outfit());
      for (Change change : stop.changes()) {
        most = Math.max(most, change.toOutfit());
      }
    }
    return most;
  }

  /**
   * Whether it has no more stops and outfits than were booked, and no fewer stops.
   *
   * @param terms what was booked
   * @return true when it fits
   */
  public boolean fits(Terms terms) {
    return stops.size() >= terms.leastStops()
        && stops.size() <= terms.mostStops()
        && outfits() <= terms.outfitLimit();
  }

  /**
   * Where all meet.
   *
   * @param words how to find it, "" for nothing more than the place
   * @param place where it is, or null for the first stop
   */
  public record Meeting(String words, @Nullable GeoPoint place) {}

  /**
   * One stop.
   *
   * @param spotId the spot
   * @param arrive when the car stops
   * @param shootFrom when the pictures begin, after parking, walking and changing
   * @param shootUntil when they end
   * @param leave when the car starts
   * @param outfit which outfit the pictures begin with, 1 or more
   * @param changes the changes of outfit made here, in order: before, between or after the pictures
   * @param drive the drive to it, or null for none
   * @param facing where the camera looks, or null when not known
   * @param fallbackSpotId where to go when this place can not be used, or null for none
   */
  public record Stop(
      long spotId,
      Instant arrive,
      Instant shootFrom,
      Instant shootUntil,
      Instant leave,
      int outfit,
      List<Change> changes,
      @Nullable Drive drive,
      @Nullable Bearing facing,
      @Nullable Long fallbackSpotId) {

    /** Checks the order of the times and keeps an own copy of the changes. */
    public Stop {
      changes = List.copyOf(changes);
      if (shootFrom.isBefore(arrive)
          || !shootUntil.isAfter(shootFrom)
          || leave.isBefore(shootUntil)) {
        throw new IllegalArgumentException(
            "expected arriving, then pictures, then leaving; found "
                + arrive
                + ", "
                + shootFrom
                + ", "
                + shootUntil
                + ", "
                + leave);
      }
      Instant before = arrive;
      for (Change change : changes) {
        if (change.from().isBefore(before) || change.until().isAfter(leave)) {
          throw new IllegalArgumentException(
              "expected changes of outfit one after the other while there, found one from "
                  + change.from()
                  + " to "
                  + change.until());
        }
        before = change.until();
      }
      if (outfit < 1) {
        throw new IllegalArgumentException("expected outfit 1 or more, found " + outfit);
      }
    }
  }

  /**
   * A change of outfit.
   *
   * @param from when it begins
   * @param until when it is done
   * @param toOutfit the number of the outfit worn afterwards, 2 or more
   */
  public record Change(Instant from, Instant until, int toOutfit) {
    /** Checks the order and the number. */
    public Change {
      if (!until.isAfter(from) || toOutfit < 2) {
        throw new IllegalArgumentException(
            "expected a change that takes time, to outfit 2 or more; found one from "
                + from
                + " to "
                + until
                + " to outfit "
                + toOutfit);
      }
    }
  }

  /**
   * A drive.
   *
   * @param minutes how long, minutes
   * @param source who says so
   */
  public record Drive(int minutes, Source source) {
    /** Who says how long a drive takes. */
    public enum Source {
      /** The owner. */
      OWNER("your own minutes"),
      /** Found on the roads of the imported map. */
      ROUTED("by the map's roads"),
      /** Distance, a detour factor and a speed. */
      ESTIMATED("an estimate");

      private final String label;

      Source(String label) {
        this.label = label;
      }

      /**
       * The words on screens.
       *
       * @return for example "an estimate"
       */
      public String label() {
        return label;
      }
    }

    /** Checks the minutes. */
    public Drive {
      if (minutes < 0) {
        throw new IllegalArgumentException("expected minutes of 0 or more, found " + minutes);
      }
    }
  }
}
