package org.lightledger.map;

import java.util.List;

/**
 * What there is to draw in a window.
 *
 * @param regions the boxes that maps cover; nothing is drawn elsewhere
 * @param features ways, water, green, names
 * @param obstructions buildings and trees
 */
public record MapContent(
    List<MapBox> regions, List<MapFeature> features, List<MapObstruction> obstructions) {

  /** From this zoom on single houses and trees are drawn; farther out only woods: own choice. */
  public static final double HOUSES_FROM_ZOOM = 14.0;

  /** What lies so far outside may reach in, pixels: half of the widest road. */
  public static final double MARGIN_PX = 24.0;

  /** Lines and areas smaller than this can not be made out, pixels. */
  public static final double SMALLEST_PX = 1.5;
}
