package org.lightledger.session.planner;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;

/** Follows the values of a best plan from its end back to its first stop. */
final class Backwards {
  private final Problem problem;
  private final Values values;
  private final int call;

  /** The most that can have been earned when shooting at the last stop of a set ended. */
  @FunctionalInterface
  interface Values {
    long at(int mask, int last, int changed, int step);
  }

  Backwards(Problem problem, Values values, int call) {
    this.problem = problem;
    this.values = values;
    this.call = call;
  }

  /** When shooting ended at the stop before, and how it was left. */
  private record Left(int stop, int step, int changed, Solution.Change change) {}

  List<Solution.Stop> from(int wholeMask, Solution.Stop end, long worth) {
    Deque<Solution.Stop> stops = new ArrayDeque<>();
    int mask = wholeMask;
    Solution.Stop stop = end;
    int changed = problem.changes - (end.changedWithin() ? 1 : 0);
    long value = worth - earned(end, 1);
    while (true) {
      mask &= ~(1 << stop.candidate());
      if (mask == 0) {
        stops.addFirst(stop);
        return List.copyOf(stops);
      }
      Left left = left(mask, stop, changed, value).orElseThrow();
      stops.addFirst(
          new Solution.Stop(
              stop.candidate(),
              stop.fromStep(),
              stop.steps(),
              stop.changedWithin(),
              left.change()));
      long before = values.at(mask, left.stop(), left.changed(), left.step());
      stop = stayEnding(mask, left, before);
      changed = left.changed() - (stop.changedWithin() ? 1 : 0);
      value = before - earned(stop, 0);
    }
  }

  private long earned(Solution.Stop stop, int last) {
    return problem.stays[stop.candidate()].worth(
            stop.fromStep(), stop.steps(), stop.changedWithin() ? 1 : 0, last)
        + Worth.warmth(problem.candidates.get(stop.candidate()).warmth());
  }

  /** The latest leave that explains the value: who leaves later waits less. */
  private Optional<Left> left(int mask, Solution.Stop stop, int changed, long value) {
    int next = stop.candidate();
    for (int step = stop.fromStep(); step >= call; step--) {
      for (int rest = mask; rest != 0; rest &= rest - 1) {
        int last = Integer.numberOfTrailingZeros(rest);
        int readyMin = problem.readyMin[last][next];
        if (readyMin == Problem.NO_WAY) {
          continue;
        }
        long wanted = value + problem.driveCost[last][next];
        int there = stop.fromStep() - step;
        if (there >= problem.stepsFor(readyMin) && values.at(mask, last, changed, step) == wanted) {
          return Optional.of(new Left(last, step, changed, Solution.Change.NONE));
        }
        if (changed > 0
            && there >= problem.stepsFor(readyMin + problem.changeMin())
            && values.at(mask, last, changed - 1, step) == wanted) {
          if (problem.canChangeAfter(last, step)) {
            return Optional.of(
                new Left(last, step, changed - 1, Solution.Change.AT_THE_ONE_BEFORE));
          }
          if (problem.canChangeBefore(next, stop.fromStep())) {
            return Optional.of(new Left(last, step, changed - 1, Solution.Change.HERE));
          }
        }
      }
    }
    return Optional.empty();
  }

  private Solution.Stop stayEnding(int mask, Left left, long value) {
    int candidate = left.stop();
    StayTable stays = problem.stays[candidate];
    int position = Integer.bitCount(mask);
    for (int within = 0; within <= Math.min(1, left.changed()); within++) {
      for (int length = stays.leastSteps(); length <= stays.mostSteps(); length++) {
        int from = left.step() - stays.busySteps(length, within == 1);
        if (from < call
            || !problem.allowedAs(candidate, position)
            || !problem.allowedFrom(candidate, from)) {
          continue;
        }
        Solution.Stop stop =
            new Solution.Stop(candidate, from, length, within == 1, Solution.Change.NONE);
        if (stays.worth(from, length, within, 0) != StayTable.NEVER
            && explains(mask, stop, left.changed() - within, value - earned(stop, 0))) {
          return stop;
        }
      }
    }
    throw new IllegalStateException("a value of the plan has no stay: " + left);
  }

  /** Whether one can have arrived at a stop with a value. */
  private boolean explains(int mask, Solution.Stop stop, int changed, long value) {
    int before = mask & ~(1 << stop.candidate());
    if (before != 0) {
      return left(before, stop, changed, value).isPresent();
    }
    int readyMin = problem.firstReadyMin[stop.candidate()];
    return changed == 0
        && readyMin != Problem.NO_WAY
        && stop.fromStep() == call + problem.stepsFor(readyMin)
        && value == -problem.firstDriveCost[stop.candidate()];
  }
}
