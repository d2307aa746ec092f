package org.lightledger.map.osm;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import org.lightledger.geo.GeoPoint;
import org.lightledger.map.FeatureKind;
import org.lightledger.map.MapBox;
import org.lightledger.map.MapFeature;
import org.lightledger.map.MapObstruction;
import org.lightledger.map.MapSink;
import org.lightledger.skyline.buildings.Crowns;
import org.lightledger.skyline.buildings.HeightSource;
import org.lightledger.skyline.buildings.HeightTags;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.skyline.buildings.ObstructionKind;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;

/** Puts the ways and nodes of a file together to obstructions and features. */
final class Assembly {
  private final Needed needed;
  private final MapBox bounds;

  /** Widths where none is given, metres: own choice. */
  private static final double HEDGE_WIDTH_M = 1.0;

  private static final double WALL_WIDTH_M = 0.4;

  private final Problems problems;
  private final MapSink sink;
  private final WayPlaces places;
  private final Parts parts = new Parts();
  private final List<LineString> coast = new ArrayList<>();
  private final List<Building> buildings = new ArrayList<>();

  /** Nodes that are trees: a row that is drawn through its trees counts by them. */
  private final Set<Long> trees = new HashSet<>();

  Assembly(Needed needed, MapBox bounds, Problems problems, MapSink sink) {
    this.needed = needed;
    this.bounds = bounds;
    this.problems = problems;
    this.sink = sink;
    this.places = new WayPlaces(needed, problems);
    for (Needed.Point point : needed.points()) {
      if (TagRules.isTree(point.tags())) {
        trees.add(point.id());
      }
    }
  }

  /** A building whose parts have not all been met yet. */
  private record Building(String sourceId, Geometry area, Map<String, String> tags) {}

  void run() {
    AreaRelations relations = new AreaRelations(needed, places, problems);
    Set<Long> spent = relations.each(this::area);
    for (Needed.Way way : needed.ways().values()) {
      if (!way.tags().isEmpty()) {
        way(way, spent.contains(way.id()));
      }
    }
    for (Needed.Point point : needed.points()) {
      point(point);
    }
    for (Building building : buildings) {
      building(building);
    }
    sea();
  }

  private void way(Needed.Way way, boolean spent) {
    String sourceId = "way/" + way.id();
    Coordinate[] line = places.of(sourceId, way.nodeIds());
    if (line.length < 2) {
      problems.add(
          sourceId, "expected at least two nodes in the file, found fewer; it is left out");
      return;
    }
    LineString drawn = Rings.FACTORY.createLineString(line);
    if (TagRules.isCoast(way.tags())) {
      coast.add(drawn);
    }
    if (TagRules.isTreeRow(way.tags())) {
      if (Arrays.stream(way.nodeIds()).noneMatch(trees::contains)) {
        row(sourceId, ObstructionKind.TREE_ROW, drawn, Crowns.ROW_WIDTH_M, way.tags());
      }
    } else if (TagRules.isBarrier(way.tags())) {
      boolean hedge = TagRules.isHedge(way.tags());
      row(
          sourceId,
          hedge ? ObstructionKind.TREE_ROW : ObstructionKind.BUILDING,
          drawn,
          hedge ? HEDGE_WIDTH_M : WALL_WIDTH_M,
          way.tags());
    }
    if (way.closed() && TagRules.isArea(way.tags())) {
      Geometry area = spent ? null : Rings.area(line);
      if (area != null) {
        area(sourceId, area, way.tags());
      } else if (!spent) {
        problems.add(sourceId, "expected an area, found a line without width; it is left out");
      }
      return;
    }
    FeatureKind kind = TagRules.line(way.tags());
    if (kind != null) {
      feature(sourceId, kind, drawn, way.tags());
    } else if (!spent && TagRules.areaObstruction(way.tags()) != null) {
      problems.add(sourceId, "expected a way that ends where it starts, found an open one");
    }
  }

  private void row(
      String sourceId,
      ObstructionKind kind,
      LineString middle,
      double usualWidthM,
      Map<String, String> tags) {
    List<String> found = new ArrayList<>();
    double widthM = HeightTags.lengthM(tags, "width", found).orElse(usualWidthM);
    found.forEach(problem -> problems.add(sourceId, problem));
    for (Geometry piece : Crowns.rowInPieces(middle, widthM)) {
      obstruction(sourceId, kind, piece, tags);
    }
  }

  private void point(Needed.Point point) {
    String sourceId = "node/" + point.id();
    if (TagRules.isTree(point.tags())) {
      List<String> found = new ArrayList<>();
      OptionalDouble widthM = HeightTags.lengthM(point.tags(), "diameter_crown", found);
      found.forEach(problem -> problems.add(sourceId, problem));
      obstruction(
          sourceId,
          ObstructionKind.TREE,
          Crowns.tree(
              new GeoPoint(point.latitudeDeg(), point.longitudeDeg()),
              widthM.orElse(Crowns.TREE_WIDTH_M)),
          point.tags());
      return;
    }
    FeatureKind kind = TagRules.point(point.tags());
    if (kind != null) {
      feature(
          sourceId,
          kind,
          Rings.FACTORY.createPoint(new Coordinate(point.longitudeDeg(), point.latitudeDeg())),
          point.tags());
    }
  }

  private void area(String sourceId, Geometry area, Map<String, String> tags) {
    AreaKind kind = AreaKind.of(tags);
    ObstructionKind obstruction = kind.obstruction();
    if (obstruction != null && kind.part()) {
      parts.add(area, HeightTags.of(obstruction, tags).heightM());
    }
    if (kind.building()) {
      buildings.add(new Building(sourceId, area, tags));
    } else if (obstruction != null) {
      obstruction(sourceId, obstruction, area, tags);
    }
    if (kind.drawn() != null) {
      feature(sourceId, kind.drawn(), area, tags);
    } else if (kind.sign() != null) {
      feature(sourceId, kind.sign(), area.getInteriorPoint(), tags);
    }
  }

  /**
   * A building that its parts fill is drawn only, for its height is that of the highest part. One
   * that says that it is lower is a body among them.
   */
  private void building(Building building) {
    OptionalDouble partsM =
        TagRules.isPart(building.tags()) ? OptionalDouble.empty() : parts.highestM(building.area());
    HeightTags own = HeightTags.of(ObstructionKind.BUILDING, building.tags());
    boolean lower =
        own.source() != HeightSource.ASSUMED && own.heightM() < partsM.orElse(Double.MAX_VALUE);
    if (partsM.isPresent() && !lower) {
      feature(building.sourceId(), FeatureKind.BUILDING_OUTLINE, building.area(), building.tags());
    } else {
      obstruction(building.sourceId(), ObstructionKind.BUILDING, building.area(), building.tags());
    }
  }

  private void obstruction(
      String sourceId, ObstructionKind kind, Geometry area, Map<String, String> tags) {
    HeightTags heights = HeightTags.of(kind, tags);
    heights.problems().forEach(problem -> problems.add(sourceId, problem));
    String name = TagRules.name(tags);
    for (Roofs.Layer layer : Roofs.layers(area, tags, heights)) {
      sink.obstruction(
          new MapObstruction(
              new Obstruction(
                  sourceId,
                  kind,
                  layer.outline(),
                  layer.heightM(),
                  heights.minHeightM(),
                  heights.source(),
                  null),
              name));
      name = null;
    }
  }

  private void feature(
      String sourceId, FeatureKind kind, Geometry geometry, Map<String, String> tags) {
    sink.feature(
        new MapFeature(sourceId, kind, TagRules.name(tags), TagRules.level(tags), geometry));
  }

  private void sea() {
    if (!coast.isEmpty()) {
      int number = 0;
      for (Polygon piece : Coast.sea(coast, bounds, problems)) {
        sink.feature(new MapFeature("sea/" + ++number, FeatureKind.SEA, null, 0, piece));
      }
    }
  }
}
