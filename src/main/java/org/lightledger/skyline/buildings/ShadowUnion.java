package org.lightledger.skyline.buildings;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.index.strtree.STRtree;
import org.locationtech.jts.operation.overlayng.OverlayNGRobust;

/**
 * Joins areas that touch, group by group. Groups that lie apart need no overlay between them, which
 * under a high sun, whose shadows are short, is several times faster than joining all at once.
 */
final class ShadowUnion {
  private final List<Geometry> areas;
  private final int[] leaders;

  private ShadowUnion(List<Geometry> areas) {
    this.areas = areas;
    this.leaders = new int[areas.size()];
    STRtree index = new STRtree();
    for (int i = 0; i < leaders.length; i++) {
      leaders[i] = i;
      index.insert(areas.get(i).getEnvelopeInternal(), i);
    }
    for (int i = 0; i < leaders.length; i++) {
      int here = i;
      index.query(areas.get(i).getEnvelopeInternal(), other -> meet(here, (Integer) other));
    }
  }

  /**
   * Joins areas.
   *
   * @param areas valid polygons or several
   * @return the areas joined, none of which touches another
   */
  static List<Geometry> of(List<Geometry> areas) {
    ShadowUnion union = new ShadowUnion(areas);
    Map<Integer, List<Geometry>> groups = new LinkedHashMap<>();
    for (int i = 0; i < areas.size(); i++) {
      groups.computeIfAbsent(union.leader(i), leader -> new ArrayList<>()).add(areas.get(i));
    }
    return groups.values().stream()
        .map(group -> group.size() == 1 ? group.get(0) : OverlayNGRobust.union(group))
        .toList();
  }

  private void meet(int one, int other) {
    if (other > one
        && leader(one) != leader(other)
        && areas.get(one).intersects(areas.get(other))) {
      leaders[leader(one)] = leader(other);
    }
  }

  private int leader(int of) {
    int at = of;
    while (leaders[at] != at) {
      leaders[at] = leaders[leaders[at]];
      at = leaders[at];
    }
    return at;
  }
}
