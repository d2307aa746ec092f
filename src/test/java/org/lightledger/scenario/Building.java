package org.lightledger.scenario;

import java.util.List;

/**
 * A building: a box under a gabled roof.
 *
 * @param name its name
 * @param kind what it is and looks like
 * @param centre middle of its outline
 * @param axisDeg bearing of its long side, which is also the ridge's, degrees in [0, 180)
 * @param lengthM long side, metres
 * @param widthM short side, metres
 * @param eavesM height of the walls above the ground, metres
 * @param ridgeM height of the ridge above the ground, metres; equal to the walls for a flat roof
 */
public record Building(
    String name,
    Kind kind,
    Point centre,
    double axisDeg,
    double lengthM,
    double widthM,
    double eavesM,
    double ridgeM) {
  /** What a building is and looks like. */
  public enum Kind {
    HOUSE,
    STONE_HOUSE,
    CHURCH,
    TOWER,
    MILL,
    BARN,
    ARCADED,
    SHED
  }

  /** The outline's four corners, in order. */
  public List<Point> outline() {
    double l = lengthM / 2;
    double w = widthM / 2;
    return List.of(corner(l, w), corner(l, -w), corner(-l, -w), corner(-l, w));
  }

  private Point corner(double ahead, double right) {
    return centre.along(axisDeg, ahead).along(axisDeg + 90, right);
  }
}
