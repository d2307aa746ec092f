package org.lightledger.map.osm;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;

/** Where the nodes of ways lie. */
final class WayPlaces {
  private final Needed needed;
  private final Problems problems;

  WayPlaces(Needed needed, Problems problems) {
    this.needed = needed;
    this.problems = problems;
  }

  /** The places of nodes; those that the file lacks are passed over and told. */
  Coordinate[] of(String sourceId, long[] nodeIds) {
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
