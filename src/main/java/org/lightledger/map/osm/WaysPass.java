package org.lightledger.map.osm;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Keeps the ways that are something by themselves or belong to a needed area. */
final class WaysPass implements OsmVisitor {
  /**
   * Nodes of needed ways, of which each costs some 30 bytes while reading: own choice, a large
   * federal state, and some 2 GB of memory.
   */
  private static final int MOST_NODES = 60_000_000;

  private final Set<Long> members = new HashSet<>();
  private final Map<Long, Needed.Way> ways = new LinkedHashMap<>();
  private final Longs nodeIds = new Longs();

  WaysPass(List<Needed.AreaRelation> relations) {
    for (Needed.AreaRelation relation : relations) {
      relation.members().forEach(member -> members.add(member.wayId()));
    }
  }

  @Override
  public Part part() {
    return Part.WAYS;
  }

  @Override
  public void way(long id, long[] nodes, Map<String, String> tags) throws OsmFileException {
    Map<String, String> kept = RelationsPass.kept(tags);
    if (!members.contains(id) && !isSomething(kept)) {
      return;
    }
    ways.put(id, new Needed.Way(id, nodes, kept));
    for (long node : nodes) {
      nodeIds.add(node);
    }
    if (nodeIds.size() > MOST_NODES) {
      throw new OsmFileException(
          "expected an extract whose buildings and ways have at most %,d nodes, found more; cut a"
                  .formatted(MOST_NODES)
              + " smaller region out of it, for example with \"osmium extract --bbox\"");
    }
  }

  private static boolean isSomething(Map<String, String> tags) {
    return !tags.isEmpty()
        && (TagRules.areaObstruction(tags) != null
            || TagRules.area(tags) != null
            || TagRules.line(tags) != null
            || TagRules.point(tags) != null
            || TagRules.isTreeRow(tags)
            || TagRules.isBarrier(tags)
            || TagRules.isCoast(tags));
  }

  Map<Long, Needed.Way> ways() {
    return ways;
  }

  /** The nodes of all ways kept, each once, ascending. */
  long[] nodeIds() {
    return nodeIds.takeSorted();
  }
}
