package org.lightledger.store;

import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Instant;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.map.FeatureKind;
import org.lightledger.map.MapBox;
import org.lightledger.map.MapContent;
import org.lightledger.map.MapFeature;
import org.lightledger.map.MapObstruction;
import org.lightledger.map.MapSink;
import org.lightledger.map.MapView;

/** The maps of regions, and what is drawn of them besides obstructions. */
public final class MapStore {
  private static final String MAP =
      "SELECT id, file_name, path, sha256, added_ms, licence, west_deg, south_deg, east_deg,"
          + " north_deg, obstruction_count, feature_count, problem_count FROM maps";

  private static final String FEATURE = "SELECT f.id, f.geom, f.kind, f.name, f.level, f.source_id";

  private static final String POINTS =
      Arrays.stream(FeatureKind.values())
          .filter(kind -> kind.form() == FeatureKind.Form.POINT)
          .map(kind -> "'" + kind + "'")
          .collect(Collectors.joining(", "));

  private static final String BOX =
      " r.minx <= ? AND r.maxx >= ? AND r.miny <= ? AND r.maxy >= ?"
          + " AND (r.maxx - r.minx >= ? OR r.maxy - r.miny >= ? OR f.kind IN ("
          + POINTS
          + "))"
          + " AND f.kind IN (SELECT value FROM json_each(?)) ORDER BY f.id";

  private final LedgerSession session;

  MapStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * Fills a map.
   *
   * @see #add
   */
  @FunctionalInterface
  public interface Filling {
    /**
     * Shows everything that belongs to the map.
     *
     * @param sink takes it
     * @return how many problems there were
     */
    int into(MapSink sink);
  }

  /**
   * Adds a map and what it holds.
   *
   * @param file where it is
   * @param sha256 the fingerprint of its content
   * @param licence the licence that it names, or null
   * @param bounds its region
   * @param now the present
   * @param filling shows what it holds
   * @return the map with its number and counts
   * @throws LedgerException when a map with this content is there already
   */
  public StoredMap add(
      Path file,
      String sha256,
      @Nullable String licence,
      MapBox bounds,
      Instant now,
      Filling filling) {
    session.changing(LedgerSession.Content.MAPS);
    long id =
        session
            .call(
                "INSERT INTO maps (file_name, path, sha256, added_ms, licence, west_deg, south_deg,"
                    + " east_deg, north_deg, obstruction_count, feature_count, problem_count)"
                    + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, 0, 0, 0) RETURNING id")
            .textOf(file.getFileName())
            .textOf(file.toAbsolutePath())
            .text(sha256)
            .millis(now)
            .text(licence)
            .real("longitude", bounds.westDeg())
            .real("latitude", bounds.southDeg())
            .real("longitude", bounds.eastDeg())
            .real("latitude", bounds.northDeg())
            .number();
    Inserting inserting = new Inserting(id);
    int problems = filling.into(inserting);
    session
        .call(
            "UPDATE maps SET (obstruction_count, feature_count, problem_count) = (?, ?, ?)"
                + " WHERE id = ?")
        .integer(inserting.obstructions)
        .integer(inserting.features)
        .integer(problems)
        .integer(id)
        .run();
    obstructionBounds(id).ifPresent(session.skylines()::obstructionsChanged);
    return find(id).orElseThrow();
  }

  private final class Inserting implements MapSink {
    private final long mapId;
    private int obstructions;
    private int features;

    private Inserting(long mapId) {
      this.mapId = mapId;
    }

    @Override
    public void obstruction(MapObstruction obstruction) {
      session.obstructions().addOfMap(obstruction, mapId);
      obstructions++;
    }

    @Override
    public void feature(MapFeature feature) {
      session.changing(LedgerSession.Content.MAP_FEATURES);
      session
          .call(
              "INSERT INTO map_features (geom, kind, name, level, map_id, source_id)"
                  + " VALUES (?, ?, ?, ?, ?, ?)")
          .blob(GeoPackageGeometry.write(feature.geometry()))
          .name(feature.kind())
          .text(feature.name())
          .integer(feature.level())
          .integer(mapId)
          .text(feature.sourceId())
          .run();
      features++;
    }
  }

  /**
   * Finds a map.
   *
   * @param id the ledger's number
   * @return it, or nothing
   */
  public Optional<StoredMap> find(long id) {
    return session.call(MAP + " WHERE id = ?").integer(id).first(MapStore::readMap);
  }

  /**
   * Finds a map by its content.
   *
   * @param sha256 the fingerprint of the content
   * @return it, or nothing
   */
  public Optional<StoredMap> withContent(String sha256) {
    return session.call(MAP + " WHERE sha256 = ?").text(sha256).first(MapStore::readMap);
  }

  /**
   * Every map.
   *
   * @return them, by number
   */
  public List<StoredMap> all() {
    return session.call(MAP + " ORDER BY id").list(MapStore::readMap);
  }

  /**
   * Removes a map and what it holds; what the owner drew stays.
   *
   * @param id the ledger's number
   * @throws LedgerException when there is no such map
   */
  public void remove(long id) {
    session.changing(LedgerSession.Content.MAPS);
    session.changing(LedgerSession.Content.OBSTRUCTIONS);
    session.changing(LedgerSession.Content.MAP_FEATURES);
    obstructionBounds(id).ifPresent(session.skylines()::obstructionsChanged);
    if (session.call("DELETE FROM maps WHERE id = ?").integer(id).run() != 1) {
      throw LedgerException.notFound("map", id);
    }
  }

  /**
   * The region of all maps together.
   *
   * @return the smallest box around their regions; nothing when there is no map
   */
  public Optional<MapBox> bounds() {
    return all().stream().map(StoredMap::bounds).reduce(MapBox::with);
  }

  /**
   * A number that grows with every change of the map and of the owner's obstructions, by whichever
   * program, and stays the same otherwise.
   *
   * @return the number
   */
  public long version() {
    return session.call("SELECT version FROM map_stock").number();
  }

  /**
   * Where the obstructions of a map lie.
   *
   * @param id the ledger's number of the map
   * @return the smallest box around them; nothing when it has none
   */
  public Optional<MapBox> obstructionBounds(long id) {
    return session
        .call(
            "SELECT min(ST_MinX(geom)), min(ST_MinY(geom)), max(ST_MaxX(geom)), max(ST_MaxY(geom))"
                + " FROM obstructions WHERE map_id = ? HAVING count(*) > 0")
        .integer(id)
        .first(row -> new MapBox(row.real(), row.real(), row.real(), row.real()));
  }

  /**
   * What is drawn in a box.
   *
   * @param box any box
   * @param kinds only these
   * @param smallestDeg leaves out lines and areas whose own box is narrower and lower, degrees
   * @param few whether these kinds are so few in the whole ledger that they are looked through
   *     first, and not the box
   * @return what meets the box, in the order in which it was added
   */
  public List<MapFeature> within(
      MapBox box, Collection<FeatureKind> kinds, double smallestDeg, boolean few) {
    String from =
        few
            ? " FROM map_features f CROSS JOIN rtree_map_features_geom r ON r.id = f.id WHERE"
            : " FROM rtree_map_features_geom r CROSS JOIN map_features f ON f.id = r.id WHERE";
    return session
        .call(FEATURE + from + BOX)
        .real("longitude", box.eastDeg())
        .real("longitude", box.westDeg())
        .real("latitude", box.northDeg())
        .real("latitude", box.southDeg())
        .real("size", smallestDeg)
        .real("size", smallestDeg)
        .text(Json.ofTexts(List.copyOf(kinds)))
        .list(MapStore::readFeature);
  }

  /**
   * What there is to draw in a window.
   *
   * @param view the window
   * @return regions, features and obstructions, those that are too small to be seen left out
   */
  public MapContent content(MapView view) {
    MapBox box = view.box(MapContent.MARGIN_PX);
    double smallestDeg = MapContent.SMALLEST_PX * view.degreesPerPx();
    List<FeatureKind> kinds =
        Arrays.stream(FeatureKind.values()).filter(kind -> kind.fromZoom() <= view.zoom()).toList();
    boolean houses = view.zoom() >= MapContent.HOUSES_FROM_ZOOM;
    List<StoredObstruction> obstructions =
        houses
            ? session.obstructions().within(box)
            : session.obstructions().woodsWithin(box, smallestDeg);
    return new MapContent(
        all().stream().map(StoredMap::bounds).filter(box::meets).toList(),
        within(box, kinds, smallestDeg, !houses),
        obstructions.stream()
            .map(found -> new MapObstruction(found.obstruction(), found.name()))
            .toList());
  }

  private static StoredMap readMap(Row row) throws SQLException {
    long id = row.integer();
    try {
      return new StoredMap(
          id,
          row.text(),
          Path.of(row.text()),
          row.text(),
          row.instant(),
          row.textOrNull(),
          new MapBox(row.real(), row.real(), row.real(), row.real()),
          row.whole(),
          row.whole(),
          row.whole());
    } catch (IllegalArgumentException e) {
      throw LedgerException.foreign("map " + id, e);
    }
  }

  private static MapFeature readFeature(Row row) throws SQLException {
    long id = row.integer();
    try {
      byte[] blob = row.blob();
      FeatureKind kind = FeatureKind.valueOf(row.text());
      String name = row.textOrNull();
      int level = row.whole();
      return new MapFeature(row.text(), kind, name, level, GeoPackageGeometry.read(blob));
    } catch (IllegalArgumentException e) {
      throw LedgerException.foreign("map feature " + id, e);
    }
  }
}
