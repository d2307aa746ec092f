package org.lightledger.scenario;

import java.util.List;

/**
 * A wall or a hedge.
 *
 * @param name its name
 * @param kind stone or leaves
 * @param line its middle line
 * @param heightM above the ground, metres
 * @param widthM from face to face, metres
 */
public record Barrier(String name, Kind kind, List<Point> line, double heightM, double widthM) {
  /** What it is made of. */
  public enum Kind {
    STONE_WALL,
    HEDGE
  }
}
