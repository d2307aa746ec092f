package org.lightledger.shot.view;

import java.util.function.DoubleFunction;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Angles;

/** Adds up how far a facing moves when each thing that it is told from is a little wrong. */
final class SightingErrors {
  private final Solution solution;
  private double sumOfSquares;

  SightingErrors(Solution solution) {
    this.solution = solution;
  }

  /** A facing relative to the sun's azimuth, and a pitch; degrees. */
  record Solution(double turnDeg, double pitchDeg) {}

  /** Tries one thing wrong by so much either way; a try without a solution has no bound. */
  void add(double error, DoubleFunction<@Nullable Solution> solve) {
    double worst = Math.max(moved(solve.apply(error)), moved(solve.apply(-error)));
    sumOfSquares += worst * worst;
  }

  private double moved(@Nullable Solution other) {
    return other == null
        ? Double.POSITIVE_INFINITY
        : Math.abs(Angles.turnDeg(solution.turnDeg(), other.turnDeg()));
  }

  /** The root of the sum of squares, as for errors that do not depend on each other. */
  double errorDeg() {
    return Math.sqrt(sumOfSquares);
  }
}
