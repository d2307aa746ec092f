package org.lightledger.indexing;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.Shot;
import org.lightledger.shot.zone.ZoneLookup;
import org.lightledger.spot.Facing;
import org.lightledger.spot.FacingLearner;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.store.GroupingStore;
import org.lightledger.store.Home;
import org.lightledger.store.LedgerSession;

/**
 * Finds or makes the spot of each new shot, within one transaction. Shots come one after the other
 * in a fixed order and each sees what the ones before it did, so that an import that was
 * interrupted ends as one that was not.
 *
 * <ul>
 *   <li>A shot joins the nearest spot within the join distance, else it makes one. A spot that the
 *       owner joined, split or moved is measured from its anchors, any other from its position.
 *   <li>A shot whose error is larger than the join distance is placed roughly. When only one spot
 *       lies within its error it joins that; when several do nobody knows which, so it joins the
 *       nearest spot that is itself known roughly, or makes one.
 *   <li>A shot whose nearest place is a spot that the owner deleted stays without a spot.
 * </ul>
 */
final class SpotPlacing {
  /** What is taken for the error of a position that states none; metres, as in the schema. */
  static final double UNSTATED_ERROR_M = 10;

  /**
   * A roughly placed shot looks no farther for a spot; own choice, metres: beyond, "the only spot
   * within the error" says nothing.
   */
  private static final double FARTHEST_M = 1000;

  private final LedgerSession session;
  private final ZoneLookup zones;
  private final double joinDistanceM;
  private final Set<Long> touched = new LinkedHashSet<>();
  private int made;

  SpotPlacing(LedgerSession session, ZoneLookup zones, double joinDistanceM) {
    this.session = session;
    this.zones = zones;
    this.joinDistanceM = joinDistanceM;
  }

  /**
   * Gives a shot that has no spot yet the spot of its place. The spot moves to the mean of its
   * shots.
   *
   * @return the spot, or null when the shot lies at a spot that the owner deleted
   */
  @Nullable Long place(long shotId, Shot.Position position) {
    Home home = homeOf(position).orElseGet(() -> make(position.point()));
    session.grouping().assign(shotId, home.spotId(), home.droppedId(), GroupingStore.Source.PLACE);
    if (home.spotId() != null) {
      touched.add(home.spotId());
    }
    return home.spotId();
  }

  private Optional<Home> homeOf(Shot.Position position) {
    Double stated = position.errorM();
    double errorM = stated == null ? UNSTATED_ERROR_M : stated;
    return errorM <= joinDistanceM || stated == null
        ? session.grouping().homesWithin(position.point(), joinDistanceM).stream().findFirst()
        : roughHomeOf(position.point(), Math.min(errorM, FARTHEST_M));
  }

  private Optional<Home> roughHomeOf(GeoPoint point, double reachM) {
    List<Home> rough = new ArrayList<>();
    List<Home> exact = new ArrayList<>();
    for (Home home : session.grouping().homesWithin(point, reachM)) {
      Long spotId = home.spotId();
      (spotId != null && session.grouping().isRough(spotId, joinDistanceM) ? rough : exact)
          .add(home);
    }
    return exact.size() == 1 ? Optional.of(exact.get(0)) : rough.stream().findFirst();
  }

  /** A new spot has a number for a name: a name may reach a client, so it must not tell where. */
  private Home make(GeoPoint point) {
    long id = makeSpot(session, null, point, zoneAt(zones, point));
    made++;
    return new Home(id, null, 0);
  }

  static long makeSpot(
      LedgerSession session, @Nullable String area, GeoPoint point, @Nullable ZoneId zone) {
    long id = session.spots().insert(unnamed(0, area, point, zone));
    session.spots().update(unnamed(id, area, point, zone));
    return id;
  }

  private static Spot unnamed(
      long id, @Nullable String area, GeoPoint point, @Nullable ZoneId zone) {
    return new Spot(id, "Spot " + id, area, point, zone, false, List.of(), "", "");
  }

  /** The zone of a place, or null when several come into question. */
  static @Nullable ZoneId zoneAt(ZoneLookup zones, GeoPoint point) {
    List<ZoneId> candidates = zones.zonesAt(point, 0).zones();
    return candidates.size() == 1 ? candidates.get(0) : null;
  }

  /** A shot of the spot now tells more; its facings are learned again. */
  void changed(long spotId) {
    touched.add(spotId);
  }

  /** Learns the facings of every spot that got a shot. */
  void learnFacings() {
    for (long spotId : touched) {
      learnFacings(session, spotId);
    }
  }

  /** Learns the facings of a spot from its shots. */
  static void learnFacings(LedgerSession session, long spotId) {
    List<Bearing> directions =
        session.shots().observations(spotId).stream()
            .map(Observation::facing)
            .filter(Objects::nonNull)
            .toList();
    session.spots().setFacings(spotId, FacingLearner.learn(directions), Facing.Origin.SHOTS);
  }

  int made() {
    return made;
  }
}
