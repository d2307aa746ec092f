package org.lightledger.scenario;

import java.util.List;

/**
 * A piece of ground of one use.
 *
 * @param name its name
 * @param use what grows or lies there
 * @param outline its corners in order
 */
public record Field(String name, Use use, List<Point> outline) {
  /** What grows or lies on a field. */
  public enum Use {
    MEADOW,
    LAWN,
    WHEAT,
    PAVED,
    EARTH,
    ORCHARD,
    PEBBLES,
    REEDS
  }
}
