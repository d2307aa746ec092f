package org.lightledger.map.osm;

import java.util.List;
import java.util.Map;
import org.lightledger.map.MapBox;

/** Sees what stands in an extract, in the file's order. Implementations take what they need. */
interface OsmVisitor {
  /** What a pass over the file is for: readers pass over the rest without decoding it. */
  enum Part {
    NODES,
    WAYS,
    RELATIONS
  }

  /** A member of a relation that is a way. */
  record Member(long wayId, String role) {}

  /** The only part that this pass is for. */
  Part part();

  default void bounds(MapBox bounds) {}

  default void licence(String licence) {}

  default void node(long id, double latitudeDeg, double longitudeDeg, Map<String, String> tags)
      throws OsmFileException {}

  default void way(long id, long[] nodeIds, Map<String, String> tags) throws OsmFileException {}

  default void relation(long id, List<Member> ways, Map<String, String> tags)
      throws OsmFileException {}
}
