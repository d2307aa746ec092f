package org.lightledger.indexing;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.OptionalDouble;
import java.util.function.LongSupplier;

/**
 * How fast work has gone lately, because files that are known already go many times faster than new
 * ones. Not safe for several threads.
 */
public final class Pace {
  /** What "lately" means; own choice, seconds. */
  private static final double WINDOW_S = 20;

  /** Before so much time has passed nothing is said; own choice, seconds. */
  private static final double LEAST_S = 1;

  private static final long STEP_NANOS = 500_000_000;
  private static final double NANOS_PER_S = 1e9;

  private final LongSupplier nanos;
  private final Deque<Mark> marks = new ArrayDeque<>();
  private Mark now;

  private record Mark(long nanos, long done) {}

  /**
   * Starts now, with nothing done.
   *
   * @param nanos a clock that only ever goes on, nanoseconds
   */
  public Pace(LongSupplier nanos) {
    this.nanos = nanos;
    this.now = new Mark(nanos.getAsLong(), 0);
    marks.add(now);
  }

  /**
   * Notes how far the work is.
   *
   * @param done how much is done since the start
   */
  public void reached(long done) {
    now = new Mark(nanos.getAsLong(), done);
    if (now.nanos() - marks.getLast().nanos() >= STEP_NANOS) {
      marks.add(now);
      while (marks.size() > 2 && seconds(marks.getFirst(), now) > WINDOW_S) {
        marks.removeFirst();
      }
    }
  }

  /**
   * How much is done in a second.
   *
   * @return more than 0, or nothing when too little is known to tell
   */
  public OptionalDouble perSecond() {
    Mark first = marks.getFirst();
    double seconds = seconds(first, now);
    long done = now.done() - first.done();
    return seconds < LEAST_S || done <= 0
        ? OptionalDouble.empty()
        : OptionalDouble.of(done / seconds);
  }

  private static double seconds(Mark from, Mark to) {
    return (to.nanos() - from.nanos()) / NANOS_PER_S;
  }
}
