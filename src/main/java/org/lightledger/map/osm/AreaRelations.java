package org.lightledger.map.osm;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.skyline.buildings.HeightSource;
import org.lightledger.skyline.buildings.HeightTags;
import org.lightledger.skyline.buildings.ObstructionKind;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;

/** Puts together the areas that relations draw (multipolygons). */
final class AreaRelations {
  private final Needed needed;
  private final WayPlaces places;
  private final Problems problems;

  AreaRelations(Needed needed, WayPlaces places, Problems problems) {
    this.needed = needed;
    this.places = places;
    this.problems = problems;
  }

  /** What takes the areas. */
  @FunctionalInterface
  interface AreaSink {
    void area(String sourceId, Geometry area, Map<String, String> tags);
  }

  /** Hands on the areas of relations; returns the ways whose tags went to one. */
  Set<Long> each(AreaSink sink) {
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
        sink.area(sourceId, area, filled(tags, repeating));
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
      } else if (TagRules.name(filled) == null && TagRules.name(way.tags()) != null) {
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
      rings.add(places.of(sourceId, ring));
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
}
