package org.lightledger.studio;

import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.spot.Spot;

/** Where a stock lies. */
public final class StudioPlace {
  /** So near that it does not matter, in radii of the earth: 6 mm. */
  private static final double STILL = 1e-9;

  private static final int MOST_STEPS = 60;

  private StudioPlace() {}

  /**
   * The zone in which most spots lie, and UTC when none is known.
   *
   * @param spots the spots
   * @return a zone
   */
  public static ZoneId zone(List<Spot> spots) {
    return knownZone(spots, ZoneOffset.UTC).orElse(ZoneOffset.UTC);
  }

  /**
   * The zone in which most spots lie.
   *
   * @param spots the spots
   * @param present the zone that is kept when it is one of several with the most spots
   * @return a zone, or nothing when none is known
   */
  static Optional<ZoneId> knownZone(List<Spot> spots, ZoneId present) {
    Map<ZoneId, Integer> counts = new HashMap<>();
    for (Spot spot : spots) {
      if (spot.zone() != null) {
        counts.merge(spot.zone(), 1, Integer::sum);
      }
    }
    return counts.entrySet().stream()
        .max(
            Comparator.<Map.Entry<ZoneId, Integer>>comparingInt(Map.Entry::getValue)
                .thenComparing(entry -> entry.getKey().equals(present))
                .thenComparing(entry -> entry.getKey().getId()))
        .map(Map.Entry::getKey);
  }

  /**
   * The middle of spots: the place from which the ways to all of them add up to the least (their
   * geometric median, through the earth), so that one spot far away does not draw it away from the
   * others; for two spots half way between them, also across the date line. Found by Weiszfeld's
   * steps (1937), from the mean of the spots' directions from the centre of the earth.
   *
   * @param spots the spots
   * @return a place; nothing for no spots, or for spots all around the earth
   */
  public static Optional<GeoPoint> middle(List<Spot> spots) {
    double[][] places = new double[spots.size()][];
    for (int i = 0; i < places.length; i++) {
      places[i] = direction(spots.get(i).position());
    }
    double[] middle = nearer(places, null);
    double moved = Double.MAX_VALUE;
    for (int step = 0; step < MOST_STEPS && moved > STILL; step++) {
      double[] next = nearer(places, middle);
      moved = distance(next, middle);
      middle = next;
    }
    double across = Math.hypot(middle[0], middle[1]);
    if (!(Math.hypot(across, middle[2]) >= 1e-9)) {
      return Optional.empty();
    }
    return Optional.of(
        new GeoPoint(
            Math.toDegrees(Math.atan2(middle[2], across)),
            Math.toDegrees(Math.atan2(middle[1], middle[0]))));
  }

  private static double[] direction(GeoPoint place) {
    double latitude = Math.toRadians(place.latitudeDeg());
    double longitude = Math.toRadians(place.longitudeDeg());
    return new double[] {
      Math.cos(latitude) * Math.cos(longitude),
      Math.cos(latitude) * Math.sin(longitude),
      Math.sin(latitude)
    };
  }

  /** The mean of places, each counting the less the farther it is from a point. */
  private static double[] nearer(double[][] places, double @Nullable [] from) {
    double[] mean = new double[3];
    double sum = 0;
    for (double[] place : places) {
      double weight = from == null ? 1 : 1 / Math.max(distance(place, from), STILL);
      sum += weight;
      for (int axis = 0; axis < 3; axis++) {
        mean[axis] += weight * place[axis];
      }
    }
    for (int axis = 0; axis < 3; axis++) {
      mean[axis] /= sum;
    }
    return mean;
  }

  private static double distance(double[] one, double[] other) {
    return Math.hypot(Math.hypot(one[0] - other[0], one[1] - other[1]), one[2] - other[2]);
  }
}
