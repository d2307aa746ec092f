package org.lightledger.shot.zone;

import java.util.Arrays;
import java.util.List;

/**
 * The area of one time zone: rings of longitudes and latitudes in degrees. A place is inside when a
 * ray from it crosses the rings an odd number of times, so that holes need no marking. A place on
 * the line is inside as well, on both sides of a border.
 */
final class ZoneShape {
  private final String name;
  private final List<Ring> rings;
  private final Box box;

  ZoneShape(String name, List<Ring> rings) {
    this.name = name;
    this.rings = List.copyOf(rings);
    this.box = rings.stream().map(ring -> ring.box).reduce(Box.EMPTY, Box::join);
  }

  String name() {
    return name;
  }

  boolean contains(double latitude, double longitude) {
    if (!box.contains(latitude, longitude)) {
      return false;
    }
    boolean inside = false;
    for (Ring ring : rings) {
      if (ring.box.contains(latitude, longitude)) {
        int crossings = ring.crossings(latitude, longitude);
        if (crossings == Ring.ON_THE_LINE) {
          return true;
        }
        inside ^= crossings % 2 == 1;
      }
    }
    return inside;
  }

  /** Whether the line may pass through a box; if not, all of the box is inside or none of it. */
  boolean passes(double south, double north, double west, double east) {
    return box.overlaps(south, north, west, east)
        && rings.stream().anyMatch(ring -> ring.passes(south, north, west, east));
  }

  private record Box(float south, float north, float west, float east) {
    static final Box EMPTY =
        new Box(
            Float.POSITIVE_INFINITY,
            Float.NEGATIVE_INFINITY,
            Float.POSITIVE_INFINITY,
            Float.NEGATIVE_INFINITY);

    Box join(Box other) {
      return new Box(
          Math.min(south, other.south),
          Math.max(north, other.north),
          Math.min(west, other.west),
          Math.max(east, other.east));
    }

    boolean contains(double latitude, double longitude) {
      return latitude >= south && latitude <= north && longitude >= west && longitude <= east;
    }

    boolean overlaps(double from, double to, double left, double right) {
      return south <= to && north >= from && west <= right && east >= left;
    }
  }

  /**
   * One closed line. Its edges are grouped into runs, and its runs into groups, each with its range
   * of latitudes, so that a ray passes over most of a coastline at once.
   */
  static final class Ring {
    private static final int GROUP = 64;
    private static final int ON_THE_LINE = -1;

    private final float[] longitudes;
    private final float[] latitudes;
    private final Ranges runs;
    private final Ranges groups;
    private final Box box;

    /**
     * Takes the corners of a line that is closed from its last to its first corner.
     *
     * @param longitudes degrees east
     * @param latitudes degrees north, as many
     */
    Ring(float[] longitudes, float[] latitudes) {
      this.longitudes = longitudes;
      this.latitudes = latitudes;
      int count = latitudes.length;
      runs = new Ranges((count + GROUP - 1) / GROUP);
      groups = new Ranges((runs.size() + GROUP - 1) / GROUP);
      Box all = Box.EMPTY;
      for (int i = 0; i < count; i++) {
        int run = i / GROUP;
        float before = latitudes[i == 0 ? count - 1 : i - 1];
        runs.add(run, before);
        runs.add(run, latitudes[i]);
        groups.add(run / GROUP, before);
        groups.add(run / GROUP, latitudes[i]);
        all = all.join(new Box(latitudes[i], latitudes[i], longitudes[i], longitudes[i]));
      }
      box = all;
    }

    /** Whether the box around any edge overlaps the box. */
    private boolean passes(double south, double north, double west, double east) {
      if (!box.overlaps(south, north, west, east)) {
        return false;
      }
      for (int run = 0; run < runs.size(); run++) {
        if (run % GROUP == 0 && !groups.overlap(run / GROUP, south, north)) {
          run += GROUP - 1;
        } else if (runs.overlap(run, south, north) && runPasses(run, south, north, west, east)) {
          return true;
        }
      }
      return false;
    }

    private boolean runPasses(int run, double south, double north, double west, double east) {
      int from = run * GROUP;
      int to = Math.min(latitudes.length, from + GROUP);
      int previous = from == 0 ? latitudes.length - 1 : from - 1;
      for (int i = from; i < to; previous = i++) {
        if (Math.max(latitudes[previous], latitudes[i]) >= south
            && Math.min(latitudes[previous], latitudes[i]) <= north
            && Math.max(longitudes[previous], longitudes[i]) >= west
            && Math.min(longitudes[previous], longitudes[i]) <= east) {
          return true;
        }
      }
      return false;
    }

    /** How many edges an eastward ray crosses, or {@link #ON_THE_LINE}. */
    private int crossings(double latitude, double longitude) {
      int crossings = 0;
      for (int group = 0; group < groups.size(); group++) {
        if (groups.reach(group, latitude)) {
          int end = Math.min(runs.size(), (group + 1) * GROUP);
          for (int run = group * GROUP; run < end; run++) {
            if (runs.reach(run, latitude)) {
              int ofRun = crossingsOfRun(run, latitude, longitude);
              if (ofRun == ON_THE_LINE) {
                return ON_THE_LINE;
              }
              crossings += ofRun;
            }
          }
        }
      }
      return crossings;
    }

    /** An edge owns its lower end only, so that a ray through a corner counts it once. */
    private int crossingsOfRun(int run, double latitude, double longitude) {
      int crossings = 0;
      int from = run * GROUP;
      int to = Math.min(latitudes.length, from + GROUP);
      int previous = from == 0 ? latitudes.length - 1 : from - 1;
      for (int i = from; i < to; previous = i++) {
        double a = latitudes[previous];
        double b = latitudes[i];
        double west = longitudes[previous];
        double east = longitudes[i];
        if ((a > latitude) != (b > latitude)) {
          double crossing = west + (latitude - a) / (b - a) * (east - west);
          if (longitude == crossing) {
            return ON_THE_LINE;
          }
          crossings += longitude < crossing ? 1 : 0;
        } else if ((latitude == b && longitude == east)
            || (latitude == a && latitude == b && (longitude > west) != (longitude > east))) {
          return ON_THE_LINE;
        }
      }
      return crossings;
    }
  }

  /** Ranges of latitude. */
  private static final class Ranges {
    private final float[] south;
    private final float[] north;

    Ranges(int size) {
      south = new float[size];
      north = new float[size];
      Arrays.fill(south, Float.POSITIVE_INFINITY);
      Arrays.fill(north, Float.NEGATIVE_INFINITY);
    }

    int size() {
      return south.length;
    }

    void add(int at, float latitude) {
      south[at] = Math.min(south[at], latitude);
      north[at] = Math.max(north[at], latitude);
    }

    boolean reach(int at, double latitude) {
      return latitude >= south[at] && latitude <= north[at];
    }

    boolean overlap(int at, double from, double to) {
      return south[at] <= to && north[at] >= from;
    }
  }
}
