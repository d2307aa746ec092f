package org.lightledger.shot.track;

import java.time.Instant;
import java.util.AbstractList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;

/**
 * Fixes that belong together, in the order of their times; at least one. Kept in 40 bytes for each.
 * Immutable.
 */
public final class TrackSegment {
  /** The earliest time that 64 bits of nanoseconds from 1970 on can hold, to the year. */
  static final Instant FIRST = Instant.parse("1678-01-01T00:00:00Z");

  /** The first time beyond what 64 bits of nanoseconds from 1970 on can hold, to the year. */
  static final Instant END = Instant.parse("2262-01-01T00:00:00Z");

  private static final long NANOS_PER_S = 1_000_000_000L;

  private final long[] nanos;
  private final double[] latitudeDeg;
  private final double[] longitudeDeg;
  private final double[] altitudeM;
  private final double[] errorM;

  private TrackSegment(
      long[] nanos,
      double[] latitudeDeg,
      double[] longitudeDeg,
      double[] altitudeM,
      double[] errorM) {
    this.nanos = nanos;
    this.latitudeDeg = latitudeDeg;
    this.longitudeDeg = longitudeDeg;
    this.altitudeM = altitudeM;
    this.errorM = errorM;
  }

  /**
   * A segment of given fixes.
   *
   * @param points at least one, in any order
   * @return the segment
   * @throws IllegalArgumentException when there is none, or a time lies outside the years 1678 to
   *     2261
   */
  public static TrackSegment of(List<TrackPoint> points) {
    Builder builder = new Builder();
    points.forEach(builder::add);
    return builder.build();
  }

  /**
   * How many fixes there are.
   *
   * @return 1 or more
   */
  public int size() {
    return nanos.length;
  }

  /**
   * A fix.
   *
   * @param index from 0, in the order of time
   * @return the fix
   */
  public TrackPoint point(int index) {
    return new TrackPoint(
        instant(index), place(index), orNull(altitudeM[index]), orNull(errorM[index]));
  }

  /**
   * All fixes.
   *
   * @return a view, in the order of time
   */
  public List<TrackPoint> points() {
    return new AbstractList<>() {
      @Override
      public TrackPoint get(int index) {
        return point(index);
      }

      @Override
      public int size() {
        return nanos.length;
      }
    };
  }

  /**
   * When the segment begins.
   *
   * @return the time of the first fix
   */
  public Instant start() {
    return instant(0);
  }

  /**
   * When the segment ends.
   *
   * @return the time of the last fix
   */
  public Instant end() {
    return instant(nanos.length - 1);
  }

  GeoPoint place(int index) {
    return new GeoPoint(latitudeDeg[index], longitudeDeg[index]);
  }

  Instant instant(int index) {
    return Instant.ofEpochSecond(0, nanos[index]);
  }

  /** The last fix at or before an instant, or -1 when there is none. */
  int lastAtOrBefore(Instant instant) {
    if (instant.isBefore(start())) {
      return -1;
    }
    if (!instant.isBefore(end())) {
      return nanos.length - 1;
    }
    long wanted = nanosOf(instant);
    int low = 0;
    int high = nanos.length - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (nanos[middle] <= wanted) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return low;
  }

  /** The first fix at the same time as another. */
  int firstAtTimeOf(int index) {
    int first = index;
    while (first > 0 && nanos[first - 1] == nanos[index]) {
      first--;
    }
    return first;
  }

  private static long nanosOf(Instant instant) {
    return Math.addExact(
        Math.multiplyExact(instant.getEpochSecond(), NANOS_PER_S), (long) instant.getNano());
  }

  private static @Nullable Double orNull(double value) {
    return Double.isNaN(value) ? null : value;
  }

  /** Collects fixes in the order in which they are read. */
  static final class Builder {
    private long[] nanos = new long[64];
    private double[][] values = new double[4][64];
    private int size;

    void add(TrackPoint point) {
      if (point.instant().isBefore(FIRST) || !point.instant().isBefore(END)) {
        throw new IllegalArgumentException(
            "expected a time from " + FIRST + " until " + END + ", found " + point.instant());
      }
      if (size == nanos.length) {
        nanos = Arrays.copyOf(nanos, 2 * size);
        for (int i = 0; i < values.length; i++) {
          values[i] = Arrays.copyOf(values[i], 2 * size);
        }
      }
      nanos[size] = nanosOf(point.instant());
      values[0][size] = point.point().latitudeDeg();
      values[1][size] = point.point().longitudeDeg();
      values[2][size] = orNaN(point.altitudeM());
      values[3][size] = orNaN(point.errorM());
      size++;
    }

    boolean isEmpty() {
      return size == 0;
    }

    /** How many fixes are earlier than the one read before them. */
    int outOfOrder() {
      return (int) IntStream.range(1, size).filter(i -> nanos[i] < nanos[i - 1]).count();
    }

    TrackSegment build() {
      if (size == 0) {
        throw new IllegalArgumentException("expected at least one point in a track segment");
      }
      int[] order = IntStream.range(0, size).toArray();
      if (outOfOrder() > 0) {
        order =
            IntStream.range(0, size)
                .boxed()
                .sorted(Comparator.comparingLong(i -> nanos[i]))
                .mapToInt(Integer::intValue)
                .toArray();
      }
      return new TrackSegment(
          Arrays.stream(order).mapToLong(i -> nanos[i]).toArray(),
          ordered(order, values[0]),
          ordered(order, values[1]),
          ordered(order, values[2]),
          ordered(order, values[3]));
    }

    private static double[] ordered(int[] order, double[] values) {
      return Arrays.stream(order).mapToDouble(i -> values[i]).toArray();
    }

    private static double orNaN(@Nullable Double value) {
      return value == null ? Double.NaN : value;
    }
  }
}
