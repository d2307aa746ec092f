package org.lightledger.shot.zone;

import java.util.List;

/**
 * The area of one time zone: rings of longitudes and latitudes in degrees. A place is inside when a
 * ray from it crosses the rings an odd number of times, so that holes need no marking.
 */
final class ZoneShape {
  /** Edges per run; a run whose latitudes miss the ray is passed over at once. */
  private static final int RUN = 64;

  private final String name;
  private final List<Ring> rings;

  ZoneShape(String name, List<Ring> rings) {
    this.name = name;
    this.rings = List.copyOf(rings);
  }

  String name() {
    return name;
  }

  boolean contains(double latitude, double longitude) {
    boolean inside = false;
    for (Ring ring : rings) {
      if (latitude >= ring.south
          && latitude <= ring.north
          && longitude >= ring.west
          && longitude <= ring.east
          && ring.isCrossedOddly(latitude, longitude)) {
        inside = !inside;
      }
    }
    return inside;
  }

  /** One closed line, with the latitude range of each run of its edges. */
  static final class Ring {
    private final float[] longitudes;
    private final float[] latitudes;
    private final float[] runSouth;
    private final float[] runNorth;
    private final float south;
    private final float north;
    private final float west;
    private final float east;

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
      int runs = (count + RUN - 1) / RUN;
      runSouth = new float[runs];
      runNorth = new float[runs];
      float westernmost = Float.POSITIVE_INFINITY;
      float easternmost = Float.NEGATIVE_INFINITY;
      float southernmost = Float.POSITIVE_INFINITY;
      float northernmost = Float.NEGATIVE_INFINITY;
      for (int run = 0; run < runs; run++) {
        int from = run * RUN;
        int to = Math.min(count, from + RUN);
        float least = latitudes[from == 0 ? count - 1 : from - 1];
        float greatest = least;
        for (int i = from; i < to; i++) {
          least = Math.min(least, latitudes[i]);
          greatest = Math.max(greatest, latitudes[i]);
          westernmost = Math.min(westernmost, longitudes[i]);
          easternmost = Math.max(easternmost, longitudes[i]);
        }
        runSouth[run] = least;
        runNorth[run] = greatest;
        southernmost = Math.min(southernmost, least);
        northernmost = Math.max(northernmost, greatest);
      }
      south = southernmost;
      north = northernmost;
      west = westernmost;
      east = easternmost;
    }

    /** Counts the edges that an eastward ray crosses; an edge owns its lower end only. */
    private boolean isCrossedOddly(double latitude, double longitude) {
      boolean odd = false;
      int count = latitudes.length;
      for (int run = 0; run < runSouth.length; run++) {
        if (latitude < runSouth[run] || latitude > runNorth[run]) {
          continue;
        }
        int from = run * RUN;
        int to = Math.min(count, from + RUN);
        int previous = from == 0 ? count - 1 : from - 1;
        for (int i = from; i < to; previous = i++) {
          double a = latitudes[previous];
          double b = latitudes[i];
          if ((a > latitude) != (b > latitude)) {
            double crossing =
                longitudes[previous]
                    + (latitude - a)
                        / (b - a)
                        * ((double) longitudes[i] - (double) longitudes[previous]);
            if (longitude < crossing) {
              odd = !odd;
            }
          }
        }
      }
      return odd;
    }
  }
}
