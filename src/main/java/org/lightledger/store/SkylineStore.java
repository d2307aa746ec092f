package org.lightledger.store;

import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.map.MapBox;
import org.lightledger.skyline.MeasuredSkyline;
import org.lightledger.skyline.ShotProof;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SunOnSubject;
import org.lightledger.skyline.buildings.BuildingOptions;
import org.lightledger.sun.SunDirection;

/** The skylines of spots, and what the owner measured and saw there. */
public final class SkylineStore {
  private final LedgerSession session;

  SkylineStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * A spot whose skyline is to be made.
   *
   * @param spotId the spot
   * @param place where it stands
   */
  public record Due(long spotId, GeoPoint place) {}

  /**
   * Finds the skyline of a spot.
   *
   * @param spotId the ledger's number of the spot
   * @return the skyline, or nothing when none was made yet
   */
  public Optional<StoredSkyline> find(long spotId) {
    return session
        .call("SELECT angles, remarks, made_ms, due FROM skylines WHERE spot_id = ?")
        .integer(spotId)
        .first(
            row ->
                new StoredSkyline(
                    skyline(row.blobOrNull()), Json.texts(row.text()), row.instant(), row.flag()));
  }

  private static Skyline skyline(byte @Nullable [] angles) {
    return angles == null ? Skyline.notKnown() : Skyline.fromBytes(angles);
  }

  /**
   * The skylines of some spots.
   *
   * @param spotIds which spots
   * @return by spot; spots around which nothing is known are absent
   */
  public Map<Long, Skyline> ofSpots(Collection<Long> spotIds) {
    Map<Long, Skyline> found = new HashMap<>();
    for (long spotId : spotIds) {
      session
          .call("SELECT angles FROM skylines WHERE spot_id = ? AND angles IS NOT NULL")
          .integer(spotId)
          .each(row -> found.put(spotId, Skyline.fromBytes(row.blob())));
    }
    return found;
  }

  /**
   * The spots around which something is known.
   *
   * @return their numbers
   */
  public Set<Long> spotsWithSkyline() {
    Set<Long> found = new HashSet<>();
    session
        .call("SELECT spot_id FROM skylines WHERE angles IS NOT NULL")
        .each(row -> found.add(row.integer()));
    return found;
  }

  /**
   * A number that grows with every change of a source of skylines.
   *
   * @return the number
   */
  public long sourcesVersion() {
    return session.call("SELECT version FROM skyline_sources").number();
  }

  /**
   * The spots whose skyline is to be made, because a source changed or it was never made.
   *
   * @param most how many at most
   * @return the first of them, by number; none while there is no source at all and nothing made
   */
  public List<Due> due(int most) {
    String unmade =
        hasSources()
            ? " UNION ALL SELECT s.id, s.geom FROM spots s WHERE NOT EXISTS"
                + " (SELECT 1 FROM skylines k WHERE k.spot_id = s.id)"
            : "";
    return session
        .call(
            "SELECT id, geom FROM (SELECT s.id, s.geom FROM skylines k JOIN spots s"
                + " ON s.id = k.spot_id WHERE k.due = 1"
                + unmade
                + ") ORDER BY id LIMIT ?")
        .integer(most)
        .list(row -> new Due(row.integer(), GeoPackageGeometry.readPoint(row.blob())));
  }

  /**
   * Notes that obstructions changed: the skylines of all spots from which they can be seen are due.
   *
   * @param changed the box in which they lie, or lay
   */
  void obstructionsChanged(MapBox changed) {
    session.call("UPDATE skyline_sources SET version = version + 1").run();
    SearchBox box = SearchBox.around(changed, BuildingOptions.STANDARD.rangeM());
    session
        .call(
            "UPDATE skylines SET due = 1 WHERE due = 0 AND spot_id IN (SELECT r.id"
                + " FROM rtree_spots_geom r WHERE r.minx <= ? AND r.maxx >= ? AND r.miny <= ?"
                + " AND r.maxy >= ?)")
        .real("longitude in degrees", box.eastDeg())
        .real("longitude in degrees", box.westDeg())
        .real("latitude in degrees", box.northDeg())
        .real("latitude in degrees", box.southDeg())
        .run();
  }

  /**
   * Counts the spots whose skyline is to be made.
   *
   * @return how many
   */
  public long countDue() {
    long due = session.call("SELECT count(*) FROM skylines WHERE due = 1").number();
    return hasSources()
        ? due
            + session
                .call(
                    "SELECT count(*) FROM spots s WHERE NOT EXISTS"
                        + " (SELECT 1 FROM skylines k WHERE k.spot_id = s.id)")
                .number()
        : due;
  }

  /**
   * Whether there is anything that a skyline could be made from.
   *
   * @return true with elevation, obstructions, measured points or the owner's word on a shot
   */
  public boolean hasSources() {
    return session
            .call(
                "SELECT EXISTS (SELECT 1 FROM elevation_files)"
                    + " OR EXISTS (SELECT 1 FROM obstructions)"
                    + " OR EXISTS (SELECT 1 FROM measured_points)"
                    + " OR EXISTS (SELECT 1 FROM shots WHERE sun_on_subject NOT NULL)")
            .number()
        == 1;
  }

  /**
   * Keeps a skyline. When the spot moved meanwhile it stays due.
   *
   * @param due the spot, and the place that the skyline was made for
   * @param skyline the skyline
   * @param remarks what the owner should know of it
   * @param madeAt when it was made
   */
  public void put(Due due, Skyline skyline, List<String> remarks, Instant madeAt) {
    session.changing(LedgerSession.Content.SKYLINES);
    session
        .call(
            "INSERT INTO skylines (spot_id, angles, remarks, made_ms, due)"
                + " SELECT id, ?, ?, ?, ST_MinX(geom) <> ? OR ST_MinY(geom) <> ?"
                + " FROM spots WHERE id = ?"
                + " ON CONFLICT (spot_id) DO UPDATE SET angles = excluded.angles,"
                + " remarks = excluded.remarks, made_ms = excluded.made_ms, due = excluded.due")
        .blob(skyline.equals(Skyline.notKnown()) ? null : skyline.toBytes())
        .text(Json.ofTexts(remarks))
        .millis(madeAt)
        .real("longitude in degrees", due.place().longitudeDeg())
        .real("latitude in degrees", due.place().latitudeDeg())
        .integer(due.spotId())
        .run();
  }

  /**
   * What the owner measured at a spot.
   *
   * @param spotId the ledger's number of the spot
   * @return by azimuth
   */
  public List<MeasuredSkyline.Point> measured(long spotId) {
    return session
        .call(
            "SELECT azimuth_deg, altitude_deg FROM measured_points WHERE spot_id = ?"
                + " ORDER BY azimuth_deg")
        .integer(spotId)
        .list(row -> new MeasuredSkyline.Point(row.real(), row.real()));
  }

  /**
   * Keeps what the owner measured at a spot, in place of what was measured before.
   *
   * @param spotId the ledger's number of the spot
   * @param points of different azimuths; none to forget what was measured
   * @throws IllegalArgumentException when there is only one, or two of one azimuth
   * @throws LedgerException when there is no such spot
   */
  public void measure(long spotId, List<MeasuredSkyline.Point> points) {
    if (!points.isEmpty()) {
      MeasuredSkyline.of(points);
    }
    session.changing(LedgerSession.Content.MEASURED_POINTS);
    session.call("DELETE FROM measured_points WHERE spot_id = ?").integer(spotId).run();
    putMeasured(spotId, points);
  }

  /** Adds points that were kept before. */
  void putMeasured(long spotId, List<MeasuredSkyline.Point> points) {
    for (MeasuredSkyline.Point point : points) {
      session
          .call("INSERT INTO measured_points (spot_id, azimuth_deg, altitude_deg) VALUES (?, ?, ?)")
          .integer(spotId)
          .real("azimuth in degrees", point.azimuthDeg())
          .real("altitude in degrees", point.altitudeDeg())
          .run();
    }
  }

  /**
   * Keeps the owner's word on a shot.
   *
   * @param shotId the ledger's number of the shot
   * @param sun what it shows; null to take the word back
   * @throws LedgerException when there is no such shot
   */
  public void setSunOnSubject(long shotId, @Nullable SunOnSubject sun) {
    session.changing(LedgerSession.Content.SHOTS);
    int changed =
        session
            .call("UPDATE shots SET sun_on_subject = ? WHERE id = ?")
            .name(sun)
            .integer(shotId)
            .run();
    if (changed == 0) {
      throw LedgerException.notFound("shot", shotId);
    }
  }

  /**
   * The owner's word on the shots of a spot.
   *
   * @param spotId the ledger's number of the spot
   * @return by shot; shots without a word are absent
   */
  public Map<Long, SunOnSubject> sunOnSubject(long spotId) {
    Map<Long, SunOnSubject> words = new HashMap<>();
    session
        .call("SELECT id, sun_on_subject FROM shots WHERE spot_id = ? AND sun_on_subject NOT NULL")
        .integer(spotId)
        .each(row -> words.put(row.integer(), SunOnSubject.valueOf(row.text())));
    return words;
  }

  /**
   * The owner's word on a shot.
   *
   * @param shotId the ledger's number of the shot
   * @return the word, or nothing when there is none
   */
  public Optional<SunOnSubject> sunOnSubjectOf(long shotId) {
    return session
        .call("SELECT sun_on_subject FROM shots WHERE id = ? AND sun_on_subject NOT NULL")
        .integer(shotId)
        .first(row -> SunOnSubject.valueOf(row.text()));
  }

  /**
   * What the shots of a spot prove of its skyline.
   *
   * @param spotId the ledger's number of the spot
   * @return those in direct sun or shade whose sun is known, by number
   */
  public List<ShotProof> proofs(long spotId) {
    return session
        .call(
            "SELECT id, sun_azimuth_deg, sun_geometric_altitude_deg, sun_apparent_altitude_deg,"
                + " sun_on_subject = 'YES' FROM shots WHERE spot_id = ?"
                + " AND sun_on_subject IN ('YES', 'NO') AND sun_azimuth_deg NOT NULL ORDER BY id")
        .integer(spotId)
        .list(
            row ->
                new ShotProof(
                    "shot " + row.integer(),
                    new SunDirection(Bearing.of(row.real()), row.real(), row.real()),
                    row.flag()));
  }
}
