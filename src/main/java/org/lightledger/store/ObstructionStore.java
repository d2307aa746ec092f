package org.lightledger.store;

import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.map.MapBox;
import org.lightledger.map.MapObstruction;
import org.lightledger.skyline.buildings.HeightSource;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.skyline.buildings.ObstructionKind;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.MultiPolygon;
import org.locationtech.jts.geom.Polygon;

/** Buildings and trees: those of maps, and those that the owner drew by hand. */
public final class ObstructionStore {
  private static final String COLUMNS =
      "o.id, o.geom, o.kind, o.height_m, o.min_height_m, o.height_source, o.ground_m, o.name,"
          + " o.map_id, o.source_id";

  /** The spatial index first, as in {@link SpotStore}. */
  private static final String IN_BOX =
      "SELECT "
          + COLUMNS
          + " FROM rtree_obstructions_geom r CROSS JOIN obstructions o ON o.id = r.id"
          + " WHERE r.minx <= ? AND r.maxx >= ? AND r.miny <= ? AND r.maxy >= ?";

  /** Woods alone, when so much of the map is looked at that houses are not drawn. */
  private static final String WOODS_IN_BOX =
      "SELECT "
          + COLUMNS
          + " FROM obstructions o CROSS JOIN rtree_obstructions_geom r ON r.id = o.id"
          + " WHERE o.kind = 'WOOD' AND r.minx <= ? AND r.maxx >= ? AND r.miny <= ? AND r.maxy >= ?"
          + " AND r.maxx - r.minx >= ?";

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private final LedgerSession session;

  ObstructionStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * What stands around a place, from every origin.
   *
   * @param place where one stands
   * @param rangeM how far, metres, 0 or more
   * @return all whose outline comes that near, and perhaps some that lie a little farther, by their
   *     numbers
   */
  public List<Obstruction> near(GeoPoint place, double rangeM) {
    List<Obstruction> near = new ArrayList<>();
    for (SearchBox box : SearchBox.around(place, rangeM)) {
      for (StoredObstruction found :
          within(new MapBox(box.westDeg(), box.southDeg(), box.eastDeg(), box.northDeg()))) {
        near.add(found.obstruction());
      }
    }
    return near;
  }

  /**
   * What stands in a box.
   *
   * @param box any box
   * @return all whose own box meets it, by their numbers
   */
  public List<StoredObstruction> within(MapBox box) {
    return inBox(session.call(IN_BOX + " ORDER BY o.id"), box).list(ObstructionStore::read);
  }

  /**
   * The woods in a box.
   *
   * @param box any box
   * @param narrowestDeg only those at least so wide from west to east, degrees of longitude
   * @return all whose own box meets it, by their numbers
   */
  public List<StoredObstruction> woodsWithin(MapBox box, double narrowestDeg) {
    return inBox(session.call(WOODS_IN_BOX + " ORDER BY o.id"), box)
        .real("width", narrowestDeg)
        .list(ObstructionStore::read);
  }

  private static Call inBox(Call call, MapBox box) {
    return call.real("longitude", box.eastDeg())
        .real("longitude", box.westDeg())
        .real("latitude", box.northDeg())
        .real("latitude", box.southDeg());
  }

  /**
   * Finds an obstruction.
   *
   * @param id the ledger's number
   * @return it, or nothing when the ledger has none with this number
   */
  public Optional<StoredObstruction> find(long id) {
    return session
        .call("SELECT " + COLUMNS + " FROM obstructions o WHERE o.id = ?")
        .integer(id)
        .first(ObstructionStore::read);
  }

  /**
   * What the owner drew by hand.
   *
   * @return all of it, by number
   */
  public List<StoredObstruction> ofOwner() {
    return session
        .call("SELECT " + COLUMNS + " FROM obstructions o WHERE o.map_id IS NULL ORDER BY o.id")
        .list(ObstructionStore::read);
  }

  /**
   * Adds an obstruction that the owner drew.
   *
   * @param obstruction what stands there; its id is what the owner calls it
   * @return the ledger's number
   */
  public long addByOwner(Obstruction obstruction) {
    session.skylines().obstructionsChanged(MapBox.around(obstruction.outline()));
    return insert(obstruction, null, null);
  }

  /**
   * Replaces an obstruction that the owner drew.
   *
   * @param id the ledger's number
   * @param obstruction what stands there now
   * @throws LedgerException when the owner drew none with this number
   */
  public void changeByOwner(long id, Obstruction obstruction) {
    markAround(id);
    session.skylines().obstructionsChanged(MapBox.around(obstruction.outline()));
    session.changing(LedgerSession.Content.OBSTRUCTIONS);
    requireOne(
        id,
        fill(
                session.call(
                    "UPDATE obstructions SET (geom, kind, height_m, min_height_m, height_source,"
                        + " ground_m, source_id) = (?, ?, ?, ?, ?, ?, ?)"
                        + " WHERE id = ? AND origin = 'OWNER'"),
                obstruction)
            .integer(id)
            .run());
  }

  /**
   * Removes an obstruction that the owner drew.
   *
   * @param id the ledger's number
   * @throws LedgerException when the owner drew none with this number
   */
  public void removeByOwner(long id) {
    markAround(id);
    session.changing(LedgerSession.Content.OBSTRUCTIONS);
    requireOne(
        id,
        session
            .call("DELETE FROM obstructions WHERE id = ? AND origin = 'OWNER'")
            .integer(id)
            .run());
  }

  /** The skylines around what is about to change or go are due. */
  private void markAround(long id) {
    find(id)
        .map(found -> MapBox.around(found.obstruction().outline()))
        .ifPresent(session.skylines()::obstructionsChanged);
  }

  void addOfMap(MapObstruction found, long mapId) {
    insert(found.obstruction(), found.name(), mapId);
  }

  private long insert(Obstruction obstruction, @Nullable String name, @Nullable Long mapId) {
    session.changing(LedgerSession.Content.OBSTRUCTIONS);
    return fill(
            session.call(
                "INSERT INTO obstructions (geom, kind, height_m, min_height_m, height_source,"
                    + " ground_m, source_id, name, origin, map_id)"
                    + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING id"),
            obstruction)
        .text(name)
        .text(mapId == null ? "OWNER" : "MAP")
        .integer(mapId)
        .number();
  }

  private static Call fill(Call call, Obstruction obstruction) {
    return call.blob(GeoPackageGeometry.write(polygons(obstruction.outline())))
        .name(obstruction.kind())
        .real("height", obstruction.heightM())
        .real("lower height", obstruction.minHeightM())
        .name(obstruction.heightSource())
        .real("ground", obstruction.groundM())
        .text(obstruction.id());
  }

  /** The layer holds multipolygons alone, which other programs expect of one layer. */
  private static MultiPolygon polygons(Geometry outline) {
    return outline instanceof MultiPolygon several
        ? several
        : FACTORY.createMultiPolygon(new Polygon[] {(Polygon) outline});
  }

  private static StoredObstruction read(Row row) throws SQLException {
    long id = row.integer();
    try {
      Geometry stored = GeoPackageGeometry.read(row.blob());
      Geometry outline = stored.getNumGeometries() == 1 ? stored.getGeometryN(0) : stored;
      ObstructionKind kind = ObstructionKind.valueOf(row.text());
      double heightM = row.real();
      double minHeightM = row.real();
      HeightSource source = HeightSource.valueOf(row.text());
      Double groundM = row.realOrNull();
      String name = row.textOrNull();
      Long mapId = row.integerOrNull();
      return new StoredObstruction(
          id,
          new Obstruction(row.text(), kind, outline, heightM, minHeightM, source, groundM),
          name,
          mapId);
    } catch (IllegalArgumentException e) {
      throw LedgerException.foreign("obstruction " + id, e);
    }
  }

  private static void requireOne(long id, int changed) {
    if (changed != 1) {
      throw LedgerException.notFound("obstruction of the owner's", id);
    }
  }
}
