package org.lightledger.indexing;

import java.time.ZoneId;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.shot.zone.ZoneLookup;
import org.lightledger.spot.Facing;
import org.lightledger.spot.FacingLearner;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.NearSpot;

/**
 * Finds or makes the spot of each new shot, within one transaction. Shots come one after the other
 * in a fixed order and each sees what the ones before it did, so that an import that was
 * interrupted ends as one that was not.
 */
final class SpotPlacing {
  private final LedgerSession session;
  private final ZoneLookup zones;
  private final double joinDistanceM;
  private final Set<Long> touched = new HashSet<>();
  private int made;

  SpotPlacing(LedgerSession session, ZoneLookup zones, double joinDistanceM) {
    this.session = session;
    this.zones = zones;
    this.joinDistanceM = joinDistanceM;
  }

  /** The spot for a shot taken at a point. Its middle moves to the mean of its shots. */
  long spotFor(GeoPoint point) {
    Optional<NearSpot> nearest = session.spots().nearest(point, joinDistanceM);
    long spotId = nearest.map(near -> join(near.spot(), point)).orElseGet(() -> make(point));
    touched.add(spotId);
    return spotId;
  }

  private long join(Spot spot, GeoPoint point) {
    long shots = session.shots().countOfSpot(spot.id());
    GeoPoint middle = Geodesy.between(spot.position(), point, 1.0 / (shots + 1));
    session.spots().move(spot.id(), middle, spot.zone());
    return spot.id();
  }

  /** A new spot has a number for a name: a name may reach a client, so it must not tell where. */
  private long make(GeoPoint point) {
    List<ZoneId> candidates = zones.zonesAt(point, 0).zones();
    ZoneId zone = candidates.size() == 1 ? candidates.get(0) : null;
    long id = session.spots().insert(unnamed(0, point, zone));
    session.spots().update(unnamed(id, point, zone));
    made++;
    return id;
  }

  private static Spot unnamed(long id, GeoPoint point, @Nullable ZoneId zone) {
    return new Spot(id, "Spot " + id, null, point, zone, false, List.of(), "", "");
  }

  /** Learns the facings of every spot that got a shot. */
  void learnFacings() {
    for (long spotId : touched) {
      List<Bearing> directions =
          session.shots().observations(spotId).stream()
              .map(Observation::facing)
              .filter(Objects::nonNull)
              .toList();
      session.spots().setFacings(spotId, FacingLearner.learn(directions), Facing.Origin.SHOTS);
    }
  }

  int made() {
    return made;
  }
}
