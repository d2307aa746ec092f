package org.lightledger.scenario;

import java.util.List;

/**
 * A river whose water lies level at height 0.
 *
 * @param name its name
 * @param course the middle line, upstream first
 * @param widthM water from bank to bank, metres
 */
public record River(String name, List<Point> course, double widthM) {

  /** Metres from a place to the river's middle line. */
  public double distance(Point place) {
    return Lines.distance(course, place);
  }
}
