package org.lightledger.session;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;

/**
 * Which shots belong to which stop of a session that has been.
 *
 * @param atStops the shots of each stop, in order of time; as many lists as there are stops
 * @param elsewhere shots of the session's hours that lie at no stop, in order of time
 */
public record ShotMatching(List<List<Taken>> atStops, List<Taken> elsewhere) {
  /**
   * So much earlier and later than planned a stop may have been for shots that are not of its spot:
   * own choice.
   */
  public static final Duration LEEWAY = Duration.ofMinutes(15);

  /** So near to a stop a shot of another spot, or of none, still belongs to it: own choice. */
  public static final double REACH_M = 100;

  /** Keeps own copies. */
  public ShotMatching {
    atStops = atStops.stream().map(List::copyOf).toList();
    elsewhere = List.copyOf(elsewhere);
  }

  /**
   * A planned stop.
   *
   * @param spotId its spot
   * @param place where that is
   * @param arrive when the car was to stop
   * @param leave when it was to start
   */
  public record Stop(long spotId, GeoPoint place, Instant arrive, Instant leave) {
    private boolean covers(Instant at) {
      return !at.isBefore(arrive.minus(LEEWAY)) && !at.isAfter(leave.plus(LEEWAY));
    }

    /** How far outside of its planned times a moment lies. */
    private Duration beside(Instant at) {
      if (at.isBefore(arrive)) {
        return Duration.between(at, arrive);
      }
      return at.isAfter(leave) ? Duration.between(leave, at) : Duration.ZERO;
    }
  }

  /**
   * A shot with a known time.
   *
   * @param shotId the ledger's number of it
   * @param spotId the spot it belongs to, or null for none
   * @param place where it was taken, or null when not known
   * @param at when it was taken
   */
  public record Taken(long shotId, @Nullable Long spotId, @Nullable GeoPoint place, Instant at) {}

  /**
   * Matches shots with stops. A shot of a stop's spot is that stop's, whenever it was taken; one of
   * no stop's spot belongs to the stops that were due then and are near. Of several stops it goes
   * to the one whose planned times it is least outside of, then to the nearest.
   *
   * @param stops the stops in order, one or more
   * @param shots the shots, in any order
   * @return the shots by stop; those outside of the session's hours are left out
   */
  public static ShotMatching of(List<Stop> stops, List<Taken> shots) {
    Map<Stop, List<Taken>> matched = new LinkedHashMap<>();
    List<Taken> elsewhere = new ArrayList<>();
    Instant from = stops.get(0).arrive().minus(LEEWAY);
    Instant until = stops.get(stops.size() - 1).leave().plus(LEEWAY);
    List<Taken> inOrder =
        shots.stream()
            .filter(shot -> !shot.at().isBefore(from) && !shot.at().isAfter(until))
            .sorted(Comparator.comparing(Taken::at).thenComparing(Taken::shotId))
            .toList();
    for (Taken shot : inOrder) {
      candidates(stops, shot).stream()
          .min(
              Comparator.comparing((Stop stop) -> stop.beside(shot.at()))
                  .thenComparing(stop -> distanceM(shot, stop)))
          .ifPresentOrElse(
              stop -> matched.computeIfAbsent(stop, same -> new ArrayList<>()).add(shot),
              () -> elsewhere.add(shot));
    }
    return new ShotMatching(
        stops.stream().map(stop -> matched.getOrDefault(stop, List.of())).toList(), elsewhere);
  }

  /** The visits of the shot's own spot, else the stops near it that were due then. */
  private static List<Stop> candidates(List<Stop> stops, Taken shot) {
    List<Stop> own = stops.stream().filter(stop -> isOf(shot, stop)).toList();
    return own.isEmpty()
        ? stops.stream()
            .filter(stop -> stop.covers(shot.at()) && distanceM(shot, stop) <= REACH_M)
            .toList()
        : own;
  }

  private static boolean isOf(Taken shot, Stop stop) {
    Long spotId = shot.spotId();
    return spotId != null && spotId == stop.spotId();
  }

  private static double distanceM(Taken shot, Stop stop) {
    GeoPoint place = shot.place();
    return place == null ? Double.POSITIVE_INFINITY : Geodesy.distanceM(place, stop.place());
  }
}
