package org.lightledger.map.osm;

import crosby.binary.Osmformat;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** One block of a PBF file; its numbers are differences from the ones before them. */
final class PbfBlock {
  private final Osmformat.PrimitiveBlock block;
  private final OsmVisitor visitor;
  private final @Nullable String[] texts;

  PbfBlock(Osmformat.PrimitiveBlock block, OsmVisitor visitor) {
    this.block = block;
    this.visitor = visitor;
    this.texts = new String[block.getStringtable().getSCount()];
  }

  void show() throws OsmFileException {
    for (Osmformat.PrimitiveGroup group : block.getPrimitivegroupList()) {
      switch (visitor.part()) {
        case NODES -> {
          for (Osmformat.Node node : group.getNodesList()) {
            node(
                node.getId(),
                node.getLat(),
                node.getLon(),
                tags(node.getKeysList(), node.getValsList()));
          }
          if (group.hasDense()) {
            dense(group.getDense());
          }
        }
        case WAYS -> {
          for (Osmformat.Way way : group.getWaysList()) {
            way(way);
          }
        }
        case RELATIONS -> {
          for (Osmformat.Relation relation : group.getRelationsList()) {
            relation(relation);
          }
        }
      }
    }
  }

  private void dense(Osmformat.DenseNodes nodes) throws OsmFileException {
    long id = 0;
    long latitude = 0;
    long longitude = 0;
    int word = 0;
    for (int i = 0; i < nodes.getIdCount(); i++) {
      id += nodes.getId(i);
      latitude += nodes.getLat(i);
      longitude += nodes.getLon(i);
      Map<String, String> tags = Map.of();
      while (word < nodes.getKeysValsCount() && nodes.getKeysVals(word) != 0) {
        tags = tags.isEmpty() ? new HashMap<>() : tags;
        tags.put(text(nodes.getKeysVals(word)), text(nodes.getKeysVals(word + 1)));
        word += 2;
      }
      word++;
      node(id, latitude, longitude, tags);
    }
  }

  private void node(long id, long latitude, long longitude, Map<String, String> tags)
      throws OsmFileException {
    double latitudeDeg =
        (block.getLatOffset() + block.getGranularity() * latitude) / PbfOsm.PER_DEGREE;
    double longitudeDeg =
        (block.getLonOffset() + block.getGranularity() * longitude) / PbfOsm.PER_DEGREE;
    if (!(Math.abs(latitudeDeg) <= 90.0 && Math.abs(longitudeDeg) <= 180.0)) {
      throw new OsmFileException(
          "node/%d: expected a place on the earth, found %s, %s; the file is damaged"
              .formatted(id, latitudeDeg, longitudeDeg));
    }
    visitor.node(id, latitudeDeg, longitudeDeg, tags);
  }

  private void way(Osmformat.Way way) throws OsmFileException {
    long[] nodeIds = new long[way.getRefsCount()];
    long id = 0;
    for (int i = 0; i < nodeIds.length; i++) {
      id += way.getRefs(i);
      nodeIds[i] = id;
    }
    visitor.way(way.getId(), nodeIds, tags(way.getKeysList(), way.getValsList()));
  }

  private void relation(Osmformat.Relation relation) throws OsmFileException {
    List<OsmVisitor.Member> members = new ArrayList<>();
    long id = 0;
    for (int i = 0; i < relation.getMemidsCount(); i++) {
      id += relation.getMemids(i);
      if (relation.getTypes(i) == Osmformat.Relation.MemberType.WAY) {
        members.add(new OsmVisitor.Member(id, text(relation.getRolesSid(i))));
      }
    }
    visitor.relation(
        relation.getId(), members, tags(relation.getKeysList(), relation.getValsList()));
  }

  private Map<String, String> tags(List<Integer> keys, List<Integer> values) {
    if (keys.isEmpty()) {
      return Map.of();
    }
    Map<String, String> tags = new HashMap<>();
    for (int i = 0; i < keys.size(); i++) {
      tags.put(text(keys.get(i)), text(values.get(i)));
    }
    return tags;
  }

  /** A text of the block's table, made once. */
  private String text(int index) {
    String text = texts[index];
    if (text == null) {
      text = block.getStringtable().getS(index).toStringUtf8();
      texts[index] = text;
    }
    return text;
  }
}
