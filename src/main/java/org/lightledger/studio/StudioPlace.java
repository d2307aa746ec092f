package org.lightledger.studio;

import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.lightledger.geo.GeoPoint;
import org.lightledger.spot.Spot;

/** Where a stock lies. */
public final class StudioPlace {
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
   * The middle of spots: the mean of their directions from the centre of the earth, so that spots
   * on both sides of the date line have theirs between them.
   *
   * @param spots the spots
   * @return a place; nothing for no spots, or for spots all around the earth
   */
  public static Optional<GeoPoint> middle(List<Spot> spots) {
    double x = 0;
    double y = 0;
    double z = 0;
    for (Spot spot : spots) {
      double latitude = Math.toRadians(spot.position().latitudeDeg());
      double longitude = Math.toRadians(spot.position().longitudeDeg());
      x += Math.cos(latitude) * Math.cos(longitude);
      y += Math.cos(latitude) * Math.sin(longitude);
      z += Math.sin(latitude);
    }
    double across = Math.hypot(x, y);
    if (Math.hypot(across, z) < 1e-9) {
      return Optional.empty();
    }
    return Optional.of(
        new GeoPoint(Math.toDegrees(Math.atan2(z, across)), Math.toDegrees(Math.atan2(y, x))));
  }
}
