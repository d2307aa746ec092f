package org.lightledger.map.osm;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.map.MapBox;
import org.locationtech.jts.geom.Envelope;

/** Finds where the needed nodes lie, and the nodes that are something by themselves. */
final class NodesPass implements OsmVisitor {
  private final NodePlaces places;
  private final List<Needed.Point> points = new ArrayList<>();

  NodesPass(long[] nodeIds) {
    places = new NodePlaces(nodeIds);
  }

  @Override
  public Part part() {
    return Part.NODES;
  }

  @Override
  public void node(long id, double latitudeDeg, double longitudeDeg, Map<String, String> tags) {
    places.put(id, latitudeDeg, longitudeDeg);
    if (!tags.isEmpty() && (TagRules.point(tags) != null || TagRules.isTree(tags))) {
      points.add(new Needed.Point(id, latitudeDeg, longitudeDeg, RelationsPass.kept(tags)));
    }
  }

  NodePlaces places() {
    return places;
  }

  List<Needed.Point> points() {
    return points;
  }

  /**
   * The box around the nodes of ways that are needed, or null when the file has none of them. Other
   * nodes, as those of a ferry's way, may lie far off.
   */
  @Nullable MapBox extent() {
    Envelope extent = places.extent();
    return extent.isNull() ? null : MapBox.of(extent);
  }
}
