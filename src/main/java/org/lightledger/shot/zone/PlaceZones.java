package org.lightledger.shot.zone;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;

/**
 * The time zones of a place, from the map that timeshape carries. The map is loaded with the first
 * question, and what is found out about a part of it is kept. Safe for use by several threads.
 */
public final class PlaceZones implements ZoneLookup {
  /** How many directions are tried when the place is known only to some metres. */
  private static final int DIRECTIONS = 8;

  private static final Set<String> KNOWN_NAMES = Set.copyOf(ZoneId.getAvailableZoneIds());

  /** The map is cut into cells of so many to a degree, 1.7 km high; own choice. */
  private static final double CELLS_PER_DEG = 64;

  /** So many cells are remembered, a few megabytes; own choice. */
  private static final int MOST_CELLS = 20_000;

  /**
   * A degree of latitude is nowhere shorter, nor one of longitude shorter than this times the
   * cosine of its latitude; metres. On WGS 84 it is 110,574 at the least.
   */
  private static final double DEGREE_AT_LEAST_M = 110_000;

  private final Object lock = new Object();
  private final Map<Long, Cell> cells = new ConcurrentHashMap<>();
  private volatile @Nullable List<ZoneShape> shapes;

  /**
   * What is known of a cell of the map.
   *
   * @param everywhere zones that cover all of it
   * @param somewhere zones whose line may pass through it
   * @param zones the answer for each of its places, or null when a line may pass
   */
  private record Cell(
      List<String> everywhere, List<ZoneShape> somewhere, @Nullable ZonesAtPlace zones) {}

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
    Cell cell = cellAt(place);
    ZonesAtPlace ofWholeCell = cell.zones();
    if (ofWholeCell != null && liesInOneCell(place, withinM)) {
      return ofWholeCell;
    }
    SortedSet<String> names = new TreeSet<>();
    addNames(cell, place, names);
    if (withinM > 0) {
      for (int i = 0; i < DIRECTIONS; i++) {
        Bearing bearing = Bearing.of(360.0 * i / DIRECTIONS);
        GeoPoint near = Geodesy.destination(place, bearing, withinM);
        addNames(cellAt(near), near, names);
      }
    }
    return zones(names);
  }

  private static ZonesAtPlace zones(SortedSet<String> names) {
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

  /** Whether every place within a distance lies in the same cell as the place itself. */
  private static boolean liesInOneCell(GeoPoint place, double withinM) {
    double reachDeg = withinM / DEGREE_AT_LEAST_M;
    double farthestDeg = Math.abs(place.latitudeDeg()) + reachDeg;
    return farthestDeg < 90
        && liesInOneCell(place.latitudeDeg(), reachDeg)
        && liesInOneCell(place.longitudeDeg(), reachDeg / Math.cos(Math.toRadians(farthestDeg)));
  }

  private static boolean liesInOneCell(double deg, double reachDeg) {
    return row(deg - reachDeg) == row(deg + reachDeg);
  }

  private static long row(double deg) {
    return (long) Math.floor(deg * CELLS_PER_DEG);
  }

  private Cell cellAt(GeoPoint place) {
    long north = row(place.latitudeDeg());
    long east = row(place.longitudeDeg());
    long key = north << 32 | east & 0xFFFF_FFFFL;
    Cell known = cells.get(key);
    if (known != null) {
      return known;
    }
    Cell cell = cell(place, north / CELLS_PER_DEG, east / CELLS_PER_DEG);
    if (cells.size() >= MOST_CELLS) {
      cells.clear();
    }
    cells.put(key, cell);
    return cell;
  }

  /** Where no line passes, a zone that holds at one place holds at all. */
  private Cell cell(GeoPoint inside, double south, double west) {
    List<String> everywhere = new ArrayList<>();
    List<ZoneShape> somewhere = new ArrayList<>();
    for (ZoneShape shape : shapes()) {
      if (shape.passes(south, south + 1 / CELLS_PER_DEG, west, west + 1 / CELLS_PER_DEG)) {
        somewhere.add(shape);
      } else if (shape.contains(inside.latitudeDeg(), inside.longitudeDeg())) {
        everywhere.add(shape.name());
      }
    }
    return new Cell(
        everywhere, somewhere, somewhere.isEmpty() ? zones(new TreeSet<>(everywhere)) : null);
  }

  private static void addNames(Cell cell, GeoPoint place, SortedSet<String> names) {
    names.addAll(cell.everywhere());
    for (ZoneShape shape : cell.somewhere()) {
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
          loaded = ZoneShapeData.shared();
          shapes = loaded;
        }
      }
    }
    return loaded;
  }
}
