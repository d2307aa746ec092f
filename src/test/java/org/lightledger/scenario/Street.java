package org.lightledger.scenario;

import java.util.List;

/**
 * A street, lane or path.
 *
 * @param name its name
 * @param kind how it is made
 * @param line its middle line
 * @param widthM metres
 */
public record Street(String name, Kind kind, List<Point> line, double widthM) {
  /** How a street is made. */
  public enum Kind {
    PAVED,
    GRAVEL,
    TRACK
  }
}
