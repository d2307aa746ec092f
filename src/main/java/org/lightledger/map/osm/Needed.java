package org.lightledger.map.osm;

import java.util.List;
import java.util.Map;

/**
 * What of a file is needed for the map.
 *
 * @param relations areas made of several ways
 * @param ways ways that are something by themselves or belong to such an area, by number
 * @param points nodes that are something by themselves
 * @param places where all their nodes lie
 */
record Needed(
    List<AreaRelation> relations, Map<Long, Way> ways, List<Point> points, NodePlaces places) {

  /** An area made of ways. */
  record AreaRelation(long id, List<OsmVisitor.Member> members, Map<String, String> tags) {}

  /** A way. */
  record Way(long id, long[] nodeIds, Map<String, String> tags) {
    boolean closed() {
      return nodeIds.length >= 4 && nodeIds[0] == nodeIds[nodeIds.length - 1];
    }
  }

  /** A node with tags. */
  record Point(long id, double latitudeDeg, double longitudeDeg, Map<String, String> tags) {}
}
