package org.lightledger.map.osm;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.map.MapBox;

/** Finds the areas that are made of several ways, and what the file says of itself. */
final class RelationsPass implements OsmVisitor {
  private final List<Needed.AreaRelation> needed = new ArrayList<>();
  private @Nullable MapBox bounds;
  private @Nullable String licence;

  @Override
  public Part part() {
    return Part.RELATIONS;
  }

  @Override
  public void bounds(MapBox found) {
    MapBox before = bounds;
    bounds = before == null ? found : before.with(found);
  }

  @Override
  public void licence(String found) {
    licence = found;
  }

  @Override
  public void relation(long id, List<Member> ways, Map<String, String> tags) {
    if (!"multipolygon".equals(tags.get("type")) || ways.isEmpty()) {
      return;
    }
    Map<String, String> kept = kept(tags);
    boolean something =
        TagRules.areaObstruction(kept) != null
            || TagRules.area(kept) != null
            || TagRules.point(kept) != null;
    if (something || kept.isEmpty()) {
      needed.add(new Needed.AreaRelation(id, ways, kept));
    }
  }

  /** The tags that rules look at, without the one that only says that it is an area. */
  static Map<String, String> kept(Map<String, String> tags) {
    if (tags.isEmpty()) {
      return Map.of();
    }
    Map<String, String> kept = new HashMap<>(tags);
    kept.keySet().retainAll(TagRules.KEYS);
    kept.remove("type");
    return kept.isEmpty() ? Map.of() : kept;
  }

  List<Needed.AreaRelation> needed() {
    return needed;
  }

  @Nullable MapBox bounds() {
    return bounds;
  }

  @Nullable String licence() {
    return licence;
  }
}
