package org.lightledger.indexing;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.shot.Shot;
import org.lightledger.shot.zone.ZoneLookup;
import org.lightledger.spot.Facing;
import org.lightledger.spot.FacingLearner;
import org.lightledger.spot.Spot;
import org.lightledger.store.GroupingStore;
import org.lightledger.store.Home;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.Surroundings;
import org.lightledger.sun.SunDirection;

/**
 * Finds or makes the spot of each shot, within one transaction. Shots come one after the other in a
 * fixed order and each sees what the ones before it did, so that an import that was interrupted
 * ends as one that was not.
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
public final class SpotPlacing {
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
  private final Watcher watcher;
  private final Surroundings surroundings;
  private int made;

  /** Hears of what becomes of spots. */
  public interface Watcher {
    /** Does nothing. */
    Watcher NONE =
        new Watcher() {
          @Override
          public void joins(long spotId) {}

          @Override
          public void makes(long spotId) {}
        };

    /**
     * A shot is about to join a spot.
     *
     * @param spotId the spot as it is before
     */
    void joins(long spotId);

    /**
     * A spot was made.
     *
     * @param spotId the spot
     */
    void makes(long spotId);
  }

  /** Places shots of an import. */
  SpotPlacing(LedgerSession session, ZoneLookup zones, double joinDistanceM) {
    this(session, zones, joinDistanceM, Watcher.NONE);
  }

  /**
   * Places shots.
   *
   * @param session the transaction
   * @param zones knows the zones of places
   * @param joinDistanceM a shot joins the nearest spot when that lies at most so far away, metres
   * @param watcher hears of what becomes of spots
   */
  public SpotPlacing(
      LedgerSession session, ZoneLookup zones, double joinDistanceM, Watcher watcher) {
    this.session = session;
    this.zones = zones;
    this.joinDistanceM = joinDistanceM;
    this.watcher = watcher;
    this.surroundings = session.grouping().surroundings();
  }

  /**
   * Gives a shot that has no spot yet the spot of its place. The spot moves to the mean of its
   * shots.
   *
   * @param shotId the shot
   * @param position where it was taken
   * @return the spot, or null when the shot lies at a spot that the owner deleted
   */
  public @Nullable Long place(long shotId, Shot.Position position) {
    settle();
    Home home = homeOf(position, session.grouping()::homesWithin);
    session.grouping().assign(shotId, home.spotId(), home.droppedId(), GroupingStore.Source.PLACE);
    settle();
    if (home.spotId() != null) {
      touched.add(home.spotId());
    }
    return home.spotId();
  }

  /** A shot that is in the ledger now, and its spot. */
  record Added(long shotId, @Nullable Long spotId) {}

  /** Adds a new shot and gives it the spot of its place, as {@link #place} does. */
  Added add(Shot shot, String sha256, @Nullable SunDirection sun) {
    Shot.Position position = shot.position();
    if (position == null) {
      return new Added(session.shots().insertAt(shot, sha256, sun, null, null), null);
    }
    Home home = homeOf(position, surroundings::homesWithin);
    Long spotId = home.spotId();
    long shotId = session.shots().insertAt(shot, sha256, sun, spotId, home.droppedId());
    if (spotId != null) {
      surroundings.joined(spotId);
      touched.add(spotId);
    }
    return new Added(shotId, spotId);
  }

  /** Lets the ledger know where the spots stand that {@link #add} gave shots to. */
  void settle() {
    surroundings.settle();
  }

  /** Tells what lies within so many metres of a place, nearest first. */
  @FunctionalInterface
  private interface Search {
    List<Home> homesWithin(GeoPoint place, double maxM);
  }

  private Home homeOf(Shot.Position position, Search search) {
    Double stated = position.errorM();
    double errorM = stated == null ? UNSTATED_ERROR_M : stated;
    Optional<Home> found =
        errorM <= joinDistanceM || stated == null
            ? search.homesWithin(position.point(), joinDistanceM).stream().findFirst()
            : roughHomeOf(position.point(), Math.min(errorM, FARTHEST_M), search);
    found.map(Home::spotId).ifPresent(watcher::joins);
    return found.orElseGet(() -> make(position.point()));
  }

  private Optional<Home> roughHomeOf(GeoPoint point, double reachM, Search search) {
    List<Home> rough = new ArrayList<>();
    List<Home> exact = new ArrayList<>();
    for (Home home : search.homesWithin(point, reachM)) {
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
    surroundings.made(id, point);
    watcher.makes(id);
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
    return new Spot(id, name(id), area, point, zone, false, List.of(), "", "");
  }

  /** The zone of a place, or null when several come into question. */
  static @Nullable ZoneId zoneAt(ZoneLookup zones, GeoPoint point) {
    List<ZoneId> candidates = zones.zonesAt(point, 0).zones();
    return candidates.size() == 1 ? candidates.get(0) : null;
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
   * Leaves a shot whose position has changed at the spot that the owner chose for it.
   *
   * @param shotId the shot
   * @param spotId the spot
   * @param position where the shot was taken
   */
  public void stays(long shotId, long spotId, Shot.Position position) {
    boolean within =
        session.anchors().ofSpot(spotId).stream()
            .anyMatch(
                anchor -> Geodesy.distanceM(anchor.place(), position.point()) <= joinDistanceM);
    session
        .grouping()
        .assign(
            shotId,
            spotId,
            null,
            within ? GroupingStore.Source.OWNER : GroupingStore.Source.OWNER_FAR);
    touched.add(spotId);
  }

  /**
   * Removes a spot that an import or a correction made and that has become empty, unless the owner
   * has said something about it or uses it, or a client has said something about it.
   *
   * @param spotId the spot
   * @return whether it is gone
   */
  public boolean removeIfNeedless(long spotId) {
    boolean needless =
        session.spots().find(spotId).filter(SpotPlacing::isAsMade).isPresent()
            && session.shots().countOfSpot(spotId) == 0
            && !session.belongings().any(spotId)
            && !session.grouping().isByOwner(spotId);
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
    settle();
    for (long spotId : touched) {
      learnFacings(session, spotId);
    }
  }

  /** Learns the facings of a spot from its shots. */
  static void learnFacings(LedgerSession session, long spotId) {
    List<Facing> learned = FacingLearner.learn(session.observations().directions(spotId));
    if (!learned.equals(session.spots().facings(spotId, Facing.Origin.SHOTS))) {
      session.spots().setFacings(spotId, learned, Facing.Origin.SHOTS);
    }
  }

  int made() {
    return made;
  }
}
