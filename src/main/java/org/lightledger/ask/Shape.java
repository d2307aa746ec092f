package org.lightledger.ask;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.lightledger.geo.Angles;
import org.lightledger.geo.GeoPoint;

/**
 * An area drawn on the map: a closed line of corners, straight in longitude and latitude, that may
 * cross the date line but no pole.
 *
 * @param corners at least three
 */
public record Shape(List<GeoPoint> corners) {
  private static final int FEWEST = 3;
  private static final int MOST = 500;

  /**
   * Checks the corners.
   *
   * @throws IllegalArgumentException when there are fewer than three or more than five hundred
   */
  public Shape {
    if (corners.size() < FEWEST || corners.size() > MOST) {
      throw new IllegalArgumentException(
          "expected a shape of 3 to 500 corners, found " + corners.size());
    }
    corners = List.copyOf(corners);
  }

  /**
   * Reads a shape.
   *
   * @param text corners as LAT,LON with semicolons between
   * @return the shape
   * @throws IllegalArgumentException naming what was found and what was expected
   */
  public static Shape parse(String text) {
    List<GeoPoint> corners = new ArrayList<>();
    for (String corner : text.split(";", -1)) {
      corners.add(GeoPoint.parse(corner));
    }
    return new Shape(corners);
  }

  /**
   * Writes the shape.
   *
   * @return text that {@link #parse} reads
   */
  public String toText() {
    return corners.stream().map(GeoPoint::toText).collect(Collectors.joining(";"));
  }

  /**
   * Tells whether a place lies inside, by how often a line to the north crosses the border.
   *
   * @param place any place
   * @return true inside
   */
  public boolean holds(GeoPoint place) {
    boolean inside = false;
    for (int i = 0; i < corners.size(); i++) {
      GeoPoint one = corners.get(i);
      GeoPoint other = corners.get((i + 1) % corners.size());
      double oneEastDeg = Angles.turnDeg(place.longitudeDeg(), one.longitudeDeg());
      double otherEastDeg = Angles.turnDeg(place.longitudeDeg(), other.longitudeDeg());
      boolean passes =
          oneEastDeg > 0 != otherEastDeg > 0 && Math.abs(oneEastDeg - otherEastDeg) < 180;
      if (passes) {
        double part = oneEastDeg / (oneEastDeg - otherEastDeg);
        double crossingDeg = one.latitudeDeg() + part * (other.latitudeDeg() - one.latitudeDeg());
        inside ^= crossingDeg > place.latitudeDeg();
      }
    }
    return inside;
  }
}
