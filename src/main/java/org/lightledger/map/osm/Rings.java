package org.lightledger.map.osm;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.prep.PreparedGeometry;
import org.locationtech.jts.geom.prep.PreparedGeometryFactory;
import org.locationtech.jts.geom.util.GeometryFixer;

/**
 * Areas from ways. Ways are joined at their ends to rings; a ring inside an odd number of others is
 * a hole. The members' roles are not asked, because they are often wrong.
 */
final class Rings {
  static final GeometryFactory FACTORY = new GeometryFactory();

  private static final int FEWEST_CORNERS = 4;

  private Rings() {}

  /** Rings, and how many ways did not close to one. */
  record Joined(List<long[]> rings, int left) {}

  /** Joins ways at their ends. */
  static Joined join(List<long[]> ways) {
    List<long[]> rings = new ArrayList<>();
    Map<Long, List<Integer>> ends = new HashMap<>();
    List<long[]> open = new ArrayList<>();
    for (long[] way : ways) {
      if (way.length >= FEWEST_CORNERS && way[0] == way[way.length - 1]) {
        rings.add(way);
      } else if (way.length >= 2) {
        ends.computeIfAbsent(way[0], end -> new ArrayList<>()).add(open.size());
        ends.computeIfAbsent(way[way.length - 1], end -> new ArrayList<>()).add(open.size());
        open.add(way);
      }
    }
    boolean[] used = new boolean[open.size()];
    int left = 0;
    for (int i = 0; i < used.length; i++) {
      if (!used[i]) {
        used[i] = true;
        Longs ring = new Longs();
        int joined = follow(open, ends, used, i, ring);
        long[] nodes = ring.take();
        if (nodes[0] == nodes[nodes.length - 1] && nodes.length >= FEWEST_CORNERS) {
          rings.add(nodes);
        } else {
          left += joined;
        }
      }
    }
    return new Joined(rings, left);
  }

  private static int follow(
      List<long[]> open, Map<Long, List<Integer>> ends, boolean[] used, int first, Longs ring) {
    int joined = 1;
    long[] way = open.get(first);
    for (long node : way) {
      ring.add(node);
    }
    long start = way[0];
    long end = way[way.length - 1];
    while (end != start) {
      int next = -1;
      for (int candidate : ends.getOrDefault(end, List.of())) {
        if (!used[candidate]) {
          next = candidate;
          break;
        }
      }
      if (next < 0) {
        break;
      }
      used[next] = true;
      joined++;
      long[] more = open.get(next);
      boolean forward = more[0] == end;
      for (int i = 1; i < more.length; i++) {
        ring.add(more[forward ? i : more.length - 1 - i]);
      }
      end = forward ? more[more.length - 1] : more[0];
    }
    return joined;
  }

  /** One ring as an area, put right where it crosses itself; null when nothing is left of it. */
  static @Nullable Geometry area(Coordinate[] ring) {
    if (ring.length < FEWEST_CORNERS) {
      return null;
    }
    return sound(FACTORY.createPolygon(ring));
  }

  /** Rings as one area; one that is there twice counts once. Null when they enclose nothing. */
  static @Nullable Geometry area(List<Coordinate[]> rings) {
    List<Polygon> sorted = new ArrayList<>();
    Set<Geometry> met = new HashSet<>();
    for (Coordinate[] ring : rings) {
      if (ring.length >= FEWEST_CORNERS) {
        Polygon polygon = FACTORY.createPolygon(ring);
        if (met.add(polygon.norm())) {
          sorted.add(polygon);
        }
      }
    }
    if (sorted.isEmpty()) {
      return null;
    }
    sorted.sort(Comparator.comparingDouble((Polygon ring) -> ring.getArea()).reversed());
    List<PreparedGeometry> prepared =
        sorted.stream().map(PreparedGeometryFactory::prepare).toList();
    int[] depth = new int[sorted.size()];
    int[] parent = new int[sorted.size()];
    List<List<LinearRing>> holes = new ArrayList<>();
    for (int i = 0; i < depth.length; i++) {
      parent[i] = -1;
      holes.add(new ArrayList<>());
      Geometry inner = sorted.get(i).getInteriorPoint();
      for (int j = 0; j < i; j++) {
        if (prepared.get(j).contains(inner)) {
          depth[i]++;
          parent[i] = j;
        }
      }
      if (depth[i] % 2 == 1) {
        holes.get(parent[i]).add(sorted.get(i).getExteriorRing());
      }
    }
    List<Polygon> polygons = new ArrayList<>();
    for (int i = 0; i < depth.length; i++) {
      if (depth[i] % 2 == 0) {
        polygons.add(
            FACTORY.createPolygon(
                sorted.get(i).getExteriorRing(), holes.get(i).toArray(LinearRing[]::new)));
      }
    }
    return sound(
        polygons.size() == 1
            ? polygons.get(0)
            : FACTORY.createMultiPolygon(polygons.toArray(Polygon[]::new)));
  }

  private static @Nullable Geometry sound(Geometry area) {
    Geometry sound = area.isValid() ? area : GeometryFixer.fix(area);
    return sound.isEmpty() || sound.getDimension() != 2 ? null : sound;
  }
}
