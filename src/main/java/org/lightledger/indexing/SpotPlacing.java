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
 * Finds or makes the spot of each shot, within one transaction. Shots come one after the other in a
 * fixed order and each sees what the ones before it did, so that an import that was interrupted
 * ends as one that was not.
 */
public final class SpotPlacing {
  private final LedgerSession session;
  private final ZoneLookup zones;
  private final double joinDistanceM;
  private final Set<Long> touched = new HashSet<>();
  private int made;

  /**
   * Places shots.
   *
   * @param session the transaction
   * @param zones knows the zones of places
   * @param joinDistanceM a shot joins the nearest spot when that lies at most so far away, metres
   */
  public SpotPlacing(LedgerSession session, ZoneLookup zones, double joinDistanceM) {
    this.session = session;
    this.zones = zones;
    this.joinDistanceM = joinDistanceM;
  }

  /**
   * The spot for a shot taken at a point. Its middle moves to the mean of its shots.
   *
   * @param point where the shot was taken
   * @return the ledger's number of the spot
   */
  public long spotFor(GeoPoint point) {
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
    return new Spot(id, name(id), null, point, zone, false, List.of(), "", "");
  }

  private static String name(long id) {
    return "Spot " + id;
  }

  /**
   * Marks a spot whose shots have changed, so that its facings are learned anew.
   *
   * @param spotId the spot
   */
  public void touch(long spotId) {
    touched.add(spotId);
  }

  /**
   * Moves the middle of a spot to the mean of its shots after some have come or gone; a spot
   * without shots stays where it is.
   *
   * @param spotId the spot
   */
  public void settle(long spotId) {
    touched.add(spotId);
    List<GeoPoint> places = session.shots().placesOfSpot(spotId);
    Optional<Spot> spot = session.spots().find(spotId);
    if (places.isEmpty() || spot.isEmpty()) {
      return;
    }
    GeoPoint middle = places.get(0);
    for (int i = 1; i < places.size(); i++) {
      middle = Geodesy.between(middle, places.get(i), 1.0 / (i + 1));
    }
    session.spots().move(spotId, middle, spot.get().zone());
  }

  /**
   * Removes a spot that an import or a correction made and that has become empty, unless the owner
   * has said something about it or proposes it to a client.
   *
   * @param spotId the spot
   * @return whether it is gone
   */
  public boolean removeIfNeedless(long spotId) {
    boolean needless =
        session.spots().find(spotId).filter(SpotPlacing::isAsMade).isPresent()
            && session.shots().countOfSpot(spotId) == 0
            && session.shortlists().titlesWith(spotId).isEmpty();
    if (needless) {
      session.spots().delete(spotId);
      touched.remove(spotId);
    }
    return needless;
  }

  private static boolean isAsMade(Spot spot) {
    return spot.name().equals(name(spot.id()))
        && spot.area() == null
        && !spot.open()
        && spot.notes().isEmpty()
        && spot.cautions().isEmpty()
        && spot.facings().stream().allMatch(facing -> facing.origin() == Facing.Origin.SHOTS);
  }

  /** Learns the facings of every spot whose shots have changed. */
  public void learnFacings() {
    for (long spotId : touched) {
      List<Bearing> directions =
          session.shots().observations(spotId).stream()
              .map(Observation::facing)
              .filter(Objects::nonNull)
              .toList();
      session.spots().setFacings(spotId, FacingLearner.learn(directions), Facing.Origin.SHOTS);
    }
  }

  /**
   * How many spots were made.
   *
   * @return 0 or more
   */
  public int made() {
    return made;
  }
}
