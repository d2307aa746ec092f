package org.lightledger.map.osm;

import java.util.Arrays;
import java.util.BitSet;
import org.jspecify.annotations.Nullable;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;

/** Where the nodes that are needed lie: sixteen bytes for each. */
final class NodePlaces {
  /** OpenStreetMap keeps coordinates in steps of 1e-7 degrees. */
  private static final double STEPS_PER_DEGREE = 1e7;

  private final long[] ids;
  private final int[] latitudes;
  private final int[] longitudes;
  private final BitSet known = new BitSet();

  /** Room for the nodes with these numbers, ascending. */
  NodePlaces(long[] ids) {
    this.ids = ids;
    this.latitudes = new int[ids.length];
    this.longitudes = new int[ids.length];
  }

  void put(long id, double latitudeDeg, double longitudeDeg) {
    int at = Arrays.binarySearch(ids, id);
    if (at >= 0) {
      latitudes[at] = (int) Math.round(latitudeDeg * STEPS_PER_DEGREE);
      longitudes[at] = (int) Math.round(longitudeDeg * STEPS_PER_DEGREE);
      known.set(at);
    }
  }

  /** The box around all that are known; null in its own sense when none is. */
  Envelope extent() {
    Envelope extent = new Envelope();
    for (int at = known.nextSetBit(0); at >= 0; at = known.nextSetBit(at + 1)) {
      extent.expandToInclude(longitudes[at] / STEPS_PER_DEGREE, latitudes[at] / STEPS_PER_DEGREE);
    }
    return extent;
  }

  /** A node's place, or null when the file does not have it. */
  @Nullable Coordinate find(long id) {
    int at = Arrays.binarySearch(ids, id);
    return at >= 0 && known.get(at)
        ? new Coordinate(longitudes[at] / STEPS_PER_DEGREE, latitudes[at] / STEPS_PER_DEGREE)
        : null;
  }
}
