package org.lightledger.shot.zone;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;

/**
 * The time zones of a place, from the map that timeshape carries. The map is loaded with the first
 * question. Safe for use by several threads.
 */
public final class PlaceZones implements ZoneLookup {
  /** How many directions are tried when the place is known only to some metres. */
  private static final int DIRECTIONS = 8;

  private static final Set<String> KNOWN_NAMES = Set.copyOf(ZoneId.getAvailableZoneIds());

  private final Object lock = new Object();
  private volatile @Nullable List<ZoneShape> shapes;

  /** Prepares the lookup; nothing is loaded yet. */
  public PlaceZones() {}

  /**
   * The zones at a place and at eight places around it.
   *
   * @param place where
   * @param withinM how far the true place can lie from it, metres, 0 or more
   * @return every zone found, sorted by name, possibly none
   * @throws IllegalArgumentException when the distance is negative or not finite
   */
  @Override
  public ZonesAtPlace zonesAt(GeoPoint place, double withinM) {
    if (!(withinM >= 0 && withinM < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "expected a distance in metres, 0 or more, found " + withinM);
    }
    List<ZoneShape> all = shapes();
    SortedSet<String> names = new TreeSet<>();
    addNames(all, place, names);
    if (withinM > 0) {
      for (int i = 0; i < DIRECTIONS; i++) {
        Bearing bearing = Bearing.of(360.0 * i / DIRECTIONS);
        addNames(all, Geodesy.destination(place, bearing, withinM), names);
      }
    }
    List<ZoneId> zones = new ArrayList<>();
    List<String> unknownNames = new ArrayList<>();
    for (String name : names) {
      if (KNOWN_NAMES.contains(name)) {
        zones.add(ZoneId.of(name));
      } else {
        unknownNames.add(name);
      }
    }
    zones.sort(Comparator.comparing(ZoneId::getId));
    return new ZonesAtPlace(zones, unknownNames);
  }

  private static void addNames(List<ZoneShape> all, GeoPoint place, SortedSet<String> names) {
    for (ZoneShape shape : all) {
      if (shape.contains(place.latitudeDeg(), place.longitudeDeg())) {
        names.add(shape.name());
      }
    }
  }

  private List<ZoneShape> shapes() {
    List<ZoneShape> loaded = shapes;
    if (loaded == null) {
      synchronized (lock) {
        loaded = shapes;
        if (loaded == null) {
          loaded = ZoneShapeData.load();
          shapes = loaded;
        }
      }
    }
    return loaded;
  }
}
