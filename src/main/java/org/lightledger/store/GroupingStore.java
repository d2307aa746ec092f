package org.lightledger.store;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;

/**
 * Which shot belongs to which spot, and where spots stand. A spot that has anchors is measured from
 * them alone, any other from its position, which is the mean of its shots.
 */
public final class GroupingStore {
  /** Places are summed in units of 1e-8 degrees. */
  private static final double UNITS_PER_DEG = 1e8;

  private final LedgerSession session;

  GroupingStore(LedgerSession session) {
    this.session = session;
  }

  /** Why a shot belongs to its spot. */
  public enum Source {
    /** An import chose the spot by the shot's place. */
    PLACE,
    /** The owner chose it. */
    OWNER,
    /** The owner chose a spot out of the reach of the shot's place, which is doubtful. */
    OWNER_FAR
  }

  /**
   * Everything that a shot taken at a place may belong to.
   *
   * @param place where the shot was taken
   * @param maxM how far away it may be, metres, 0 or more
   * @return each spot and each dropped spot once, nearest first, of equally near ones the smaller
   *     number
   */
  public List<Home> homesWithin(GeoPoint place, double maxM) {
    List<Home> found = new ArrayList<>();
    for (SearchBox box : SearchBox.around(place, maxM)) {
      eachMeasuredSpot(
          box, (spotId, at) -> found.add(new Home(spotId, null, Geodesy.distanceM(place, at))));
      session
          .anchors()
          .each(box, (anchorId, home, at) -> found.add(home.at(Geodesy.distanceM(place, at))));
    }
    return nearestOfEach(found, maxM);
  }

  /** Looks at a spot. */
  @FunctionalInterface
  interface SpotVisitor {
    void visit(long spotId, GeoPoint place);
  }

  /** The spots in a box that have no anchors; perhaps some around it. */
  void eachMeasuredSpot(SearchBox box, SpotVisitor visitor) {
    session
        .call(
            "SELECT s.id, s.geom FROM rtree_spots_geom r CROSS JOIN spots s ON s.id = r.id"
                + " WHERE r.minx <= ? AND r.maxx >= ? AND r.miny <= ? AND r.maxy >= ?"
                + " AND NOT EXISTS (SELECT 1 FROM anchors a WHERE a.spot_id = s.id)")
        .real("longitude in degrees", box.eastDeg())
        .real("longitude in degrees", box.westDeg())
        .real("latitude in degrees", box.northDeg())
        .real("latitude in degrees", box.southDeg())
        .each(row -> visitor.visit(row.integer(), GeoPackageGeometry.readPoint(row.blob())));
  }

  static List<Home> nearestOfEach(List<Home> found, double maxM) {
    found.removeIf(home -> home.distanceM() > maxM);
    found.sort(Comparator.comparingDouble(Home::distanceM).thenComparingLong(GroupingStore::id));
    List<Home> nearestOfEach = new ArrayList<>();
    for (Home home : found) {
      if (nearestOfEach.stream().noneMatch(other -> id(other) == id(home))) {
        nearestOfEach.add(home);
      }
    }
    return nearestOfEach;
  }

  /**
   * What shots may belong to, for many shots of one transaction.
   *
   * @return nothing read yet
   */
  public Surroundings surroundings() {
    return new Surroundings(session);
  }

  /** A dropped spot keeps its number, which no other spot gets. */
  private static long id(Home home) {
    Long spotId = home.spotId();
    Long droppedId = home.droppedId();
    return spotId != null ? spotId : droppedId != null ? droppedId : 0;
  }

  /**
   * Says where a shot belongs, and lets the spots it leaves and joins stand where their shots say.
   *
   * @param shotId the ledger's number of the shot
   * @param spotId the spot, or null for none
   * @param droppedId the dropped spot, or null
   * @param source why
   * @throws LedgerException when there is no such shot or spot
   */
  public void assign(long shotId, @Nullable Long spotId, @Nullable Long droppedId, Source source) {
    session.changing(LedgerSession.Content.SHOTS);
    Long before = spotOf(shotId);
    session
        .call("UPDATE shots SET (spot_id, dropped_spot_id, spot_source) = (?, ?, ?) WHERE id = ?")
        .integer(spotId)
        .integer(droppedId)
        .name(source)
        .integer(shotId)
        .run();
    if (before != null && !before.equals(spotId)) {
      settle(before);
    }
    if (spotId != null) {
      settle(spotId);
    }
  }

  private @Nullable Long spotOf(long shotId) {
    return session
        .call("SELECT spot_id FROM shots WHERE id = ?")
        .integer(shotId)
        .first(row -> Optional.ofNullable(row.integerOrNull()))
        .orElseThrow(() -> LedgerException.notFound("shot", shotId))
        .orElse(null);
  }

  /**
   * Whether a shot belongs to no spot, not even to one that the owner deleted.
   *
   * @param shotId the ledger's number of the shot
   * @return true when nothing says where it belongs
   */
  public boolean isHomeless(long shotId) {
    return session
            .call(
                "SELECT count(*) FROM shots WHERE id = ? AND spot_id IS NULL"
                    + " AND dropped_spot_id IS NULL")
            .integer(shotId)
            .number()
        == 1;
  }

  /**
   * Why a shot belongs where it does.
   *
   * @param shotId the ledger's number of the shot
   * @return why, or nothing when there is no such shot
   */
  public Optional<Source> source(long shotId) {
    return session
        .call("SELECT spot_source FROM shots WHERE id = ?")
        .integer(shotId)
        .first(row -> Source.valueOf(row.text()));
  }

  /**
   * Moves a spot to the mean of its shots, each weighing one over the square of its error, unless
   * the owner has set its position or no shot of it has a place.
   *
   * @param spotId the ledger's number of the spot
   */
  public void settle(long spotId) {
    meanOfShots(spotId)
        .ifPresent(
            mean -> {
              int changed =
                  session
                      .call("UPDATE spots SET geom = ?1 WHERE id = ?2 AND geom <> ?1")
                      .blob(GeoPackageGeometry.write(mean))
                      .integer(spotId)
                      .run();
              if (changed > 0) {
                session.changing(LedgerSession.Content.SPOTS);
              }
            });
  }

  /** Where a spot's shots say that it stands; nothing when they have no say or no place. */
  Optional<GeoPoint> meanOfShots(long spotId) {
    return session
        .call(
            "SELECT m.origin_north, m.origin_east, m.weight, m.north, m.east"
                + " FROM spot_sums m JOIN spots s ON s.id = m.spot_id"
                + " WHERE m.spot_id = ? AND m.weight > 0 AND s.position_by_owner = 0")
        .integer(spotId)
        .first(
            row -> {
              long north = row.integer();
              long east = row.integer();
              long weight = row.integer();
              return new GeoPoint(
                  (north + mean(row.integer(), weight)) / UNITS_PER_DEG,
                  wrapped((east + mean(row.integer(), weight)) / UNITS_PER_DEG));
            });
  }

  /** Rounded half up, so that it does not depend on the origin of the sums. */
  private static long mean(long sum, long weight) {
    return Math.floorDiv(2 * sum + weight, 2 * weight);
  }

  private static double wrapped(double longitudeDeg) {
    return longitudeDeg > 180
        ? longitudeDeg - 360
        : longitudeDeg < -180 ? longitudeDeg + 360 : longitudeDeg;
  }

  /**
   * Gives a spot's position back to its shots.
   *
   * @param spotId the ledger's number of the spot
   */
  public void release(long spotId) {
    session.changing(LedgerSession.Content.SPOTS);
    session.call("UPDATE spots SET position_by_owner = 0 WHERE id = ?").integer(spotId).run();
    settle(spotId);
  }

  /**
   * How a spot's place is known.
   *
   * @param spotId the ledger's number of the spot
   * @param joinDistanceM a shot with a larger error is placed roughly, metres
   * @return its standing, or nothing when there is no such spot
   */
  public Optional<Standing> standing(long spotId, double joinDistanceM) {
    return session
        .call(
            "SELECT s.position_by_owner, (SELECT count(*) FROM anchors a WHERE a.spot_id = s.id),"
                + " ifnull(m.stated, 0), ifnull(m.wide, 0) FROM spots s"
                + " LEFT JOIN spot_sums m ON m.spot_id = s.id WHERE s.id = ?")
        .integer(spotId)
        .first(row -> new Standing(row.flag(), row.whole(), row.whole(), row.whole(), false))
        .map(
            known ->
                new Standing(
                    known.byOwner(),
                    known.anchors(),
                    known.statedErrors(),
                    known.wideErrors(),
                    isRough(spotId, joinDistanceM)));
  }

  /**
   * Whether the owner set a spot's position.
   *
   * @param spotId the ledger's number of the spot
   * @return true when no import moves it
   */
  public boolean isByOwner(long spotId) {
    return session
            .call("SELECT count(*) FROM spots WHERE id = ? AND position_by_owner = 1")
            .integer(spotId)
            .number()
        == 1;
  }

  /**
   * Whether a spot is known no better than roughly: it has shots, none of them placed as exactly as
   * shots are joined, and the owner did not tie it to a place.
   *
   * @param spotId the ledger's number of the spot
   * @param joinDistanceM a shot with a larger error is placed roughly, metres
   * @return true when nobody knows better than roughly where it is
   */
  public boolean isRough(long spotId, double joinDistanceM) {
    return session
            .call(
                "SELECT EXISTS (SELECT 1 FROM shots WHERE spot_id = ?1 AND position_error_m > ?2)"
                    + " AND NOT EXISTS"
                    + " (SELECT 1 FROM shots WHERE spot_id = ?1 AND position_error_m <= ?2)"
                    + " AND NOT EXISTS (SELECT 1 FROM shots"
                    + " WHERE spot_id = ?1 AND position_error_m IS NULL AND geom IS NOT NULL)"
                    + " AND NOT EXISTS (SELECT 1 FROM anchors WHERE spot_id = ?1)"
                    + " AND NOT EXISTS"
                    + " (SELECT 1 FROM spots WHERE id = ?1 AND position_by_owner = 1)")
            .integer(spotId)
            .real("distance in metres", joinDistanceM)
            .number()
        == 1;
  }
}
