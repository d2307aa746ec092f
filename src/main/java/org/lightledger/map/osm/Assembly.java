package org.lightledger.map.osm;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.Set;
import org.jspecify.annotations.Nullable;
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
    for (Needed.Point point : needed.points()) {
      if (TagRules.isTree(point.tags())) {
        trees.add(point.id());
      }
    }
  }

  /** A building whose parts have not all been met yet. */
  private record Building(String sourceId, Geometry area, Map<String, String> tags) {}

  void run() {
    Set<Long> spent = relations();
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

  /** Shows the areas of relations; returns the ways whose tags went to one. */
  private Set<Long> relations() {
    Set<Long> spent = new HashSet<>();
    for (Needed.AreaRelation relation : needed.relations()) {
      Map<String, String> tags = relation.tags().isEmpty() ? outerTags(relation) : relation.tags();
      if (tags.isEmpty()) {
        continue;
      }
      String sourceId = "relation/" + relation.id();
      Geometry area = area(sourceId, relation);
      if (area != null) {
        List<Needed.Way> repeating = repeating(relation, AreaKind.of(tags));
        repeating.forEach(way -> spent.add(way.id()));
        area(sourceId, area, filled(tags, repeating));
      }
    }
    return spent;
  }

  /** Before 2014 the tags of an area stood on its outer way, not on the relation. */
  private Map<String, String> outerTags(Needed.AreaRelation relation) {
    return outerWays(relation).stream()
        .map(Needed.Way::tags)
        .filter(tags -> TagRules.areaObstruction(tags) != null || TagRules.area(tags) != null)
        .findFirst()
        .orElse(Map.of());
  }

  private List<Needed.Way> outerWays(Needed.AreaRelation relation) {
    return relation.members().stream()
        .filter(member -> !member.role().equals("inner"))
        .map(member -> needed.ways().get(member.wayId()))
        .filter(Objects::nonNull)
        .toList();
  }

  /** The outer ways that say once more what the relation is: they would fill its holes. */
  private List<Needed.Way> repeating(Needed.AreaRelation relation, AreaKind kind) {
    return outerWays(relation).stream()
        .filter(way -> AreaKind.of(way.tags()).equals(kind))
        .toList();
  }

  /** The relation's word counts; the height or the name that it lacks such a way may give. */
  private static Map<String, String> filled(Map<String, String> tags, List<Needed.Way> repeating) {
    Map<String, String> filled = tags;
    for (Needed.Way way : repeating) {
      if (!givesHeight(filled) && givesHeight(way.tags())) {
        Map<String, String> both = new HashMap<>(way.tags());
        both.putAll(filled);
        filled = both;
      } else if (name(filled) == null && name(way.tags()) != null) {
        Map<String, String> named = new HashMap<>(filled);
        named.put("name", way.tags().getOrDefault("name", ""));
        filled = named;
      }
    }
    return filled;
  }

  private static boolean givesHeight(Map<String, String> tags) {
    ObstructionKind kind = TagRules.areaObstruction(tags);
    return kind != null && HeightTags.of(kind, tags).source() != HeightSource.ASSUMED;
  }

  /** What the ways of a relation enclose; null, and told, when that is nothing. */
  private @Nullable Geometry area(String sourceId, Needed.AreaRelation relation) {
    List<long[]> ways = new ArrayList<>();
    Set<Long> met = new HashSet<>();
    int absent = 0;
    for (OsmVisitor.Member member : relation.members()) {
      Needed.Way way = needed.ways().get(member.wayId());
      if (way == null) {
        absent++;
      } else if (met.add(way.id())) {
        ways.add(way.nodeIds());
      }
    }
    Rings.Joined joined = Rings.join(ways);
    List<Coordinate[]> rings = new ArrayList<>();
    for (long[] ring : joined.rings()) {
      rings.add(places(sourceId, ring));
    }
    Geometry area = Rings.area(rings);
    if (absent + joined.left() > 0) {
      problems.add(
          sourceId,
          "expected ways that close to rings, found %d that do not and %d that the file lacks; %s"
              .formatted(
                  joined.left(),
                  absent,
                  area == null ? "it is left out" : "only its whole rings are taken"));
    } else if (area == null) {
      problems.add(sourceId, "expected rings that enclose an area, found none; it is left out");
    }
    return area;
  }

  private void way(Needed.Way way, boolean spent) {
    String sourceId = "way/" + way.id();
    Coordinate[] line = places(sourceId, way.nodeIds());
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
    String name = name(tags);
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
    sink.feature(new MapFeature(sourceId, kind, name(tags), TagRules.level(tags), geometry));
  }

  private static @Nullable String name(Map<String, String> tags) {
    String name = tags.get("name");
    return name == null || name.isBlank() ? null : name.strip();
  }

  private void sea() {
    if (!coast.isEmpty()) {
      int number = 0;
      for (Polygon piece : Coast.sea(coast, bounds, problems)) {
        sink.feature(new MapFeature("sea/" + ++number, FeatureKind.SEA, null, 0, piece));
      }
    }
  }

  /** The places of nodes; those that the file lacks are passed over and told. */
  private Coordinate[] places(String sourceId, long[] nodeIds) {
    List<Coordinate> places = new ArrayList<>(nodeIds.length);
    int absent = 0;
    for (long nodeId : nodeIds) {
      Coordinate place = needed.places().find(nodeId);
      if (place == null) {
        absent++;
      } else if (places.isEmpty() || !places.get(places.size() - 1).equals2D(place)) {
        places.add(place);
      }
    }
    if (absent > 0) {
      problems.add(
          sourceId,
          "expected all of its %d nodes in the file, found %d absent"
              .formatted(nodeIds.length, absent));
      boolean closed = nodeIds.length > 2 && nodeIds[0] == nodeIds[nodeIds.length - 1];
      if (closed && places.size() > 2 && !places.get(0).equals2D(places.get(places.size() - 1))) {
        places.add(places.get(0).copy());
      }
    }
    return places.toArray(Coordinate[]::new);
  }
}
