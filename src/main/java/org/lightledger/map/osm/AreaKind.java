package org.lightledger.map.osm;

import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.map.FeatureKind;
import org.lightledger.skyline.buildings.ObstructionKind;

/**
 * What an area becomes by its tags, but for its measures and its name.
 *
 * @param obstruction what it hides the sun as, or null
 * @param building whether it is a whole building
 * @param part whether it is a part of one
 * @param drawn what the area is drawn as, or null; a building is drawn as what it hides
 * @param sign what is drawn in its middle when the area is not drawn itself, or null
 */
record AreaKind(
    @Nullable ObstructionKind obstruction,
    boolean building,
    boolean part,
    @Nullable FeatureKind drawn,
    @Nullable FeatureKind sign) {

  static AreaKind of(Map<String, String> tags) {
    ObstructionKind obstruction = TagRules.areaObstruction(tags);
    boolean built = obstruction == ObstructionKind.BUILDING;
    FeatureKind drawn = built ? null : TagRules.area(tags);
    return new AreaKind(
        obstruction,
        built && TagRules.isBuilding(tags),
        built && TagRules.isPart(tags),
        drawn,
        drawn == null ? TagRules.point(tags) : null);
  }
}
