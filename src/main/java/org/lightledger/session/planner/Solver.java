package org.lightledger.session.planner;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Finds the plan of the highest worth on the grid, exactly.
 *
 * <p>For each call time it goes through the sets of stops by their size. A state is the set of
 * stops made, the last of them, how often the outfit was changed and the moment at which shooting
 * there ended; its value is the most that can have been earned. What follows depends on nothing
 * else, for the worth of a stop depends on its own stretch alone and the finish on the last stop
 * alone. How one came to a stop is settled before its stay is, so the last stop but one never meets
 * the lengths of stays: with n candidates, s stops, k outfits and t steps the work per call time is
 * about sum over sets of up to s-1 stops of n x k x t x (s + lengths of a stay).
 *
 * <p>Of plans of equal worth the one found first stays: the latest call time, then the fewest
 * stops, then by the numbers of the spots alone. Not safe for use by several threads.
 */
final class Solver {
  private static final long NEVER = StayTable.NEVER;

  private final Problem problem;
  private final int outfits;

  /** Sets of fewer than the most stops, by size; the empty one first. */
  private final int[] masks;

  /** Where the states of a set begin; -1 for sets that are not extended. */
  private final int[] base;

  private final int stateCount;
  private final int width;
  private final long[] ended;
  private final long[] arrived;

  /** For each state and count of changes the first step at which shooting can have ended. */
  private final int[] firstEnded;

  /** For each count of changes the first step at which one can be ready. */
  private final int[] firstArrived;

  /** The best worth of any whole plan with exactly these stops. */
  private final long[] bestOfSet;

  private long best = NEVER;
  private int bestCall;
  private Solution.@Nullable Stop bestLast;
  private int bestMask;
  private @Nullable Solution solution;

  Solver(Problem problem) {
    this.problem = problem;
    this.outfits = problem.changes + 1;
    this.width = problem.lengthSteps + 1;
    int all = 1 << problem.count;
    this.bestOfSet = new long[all];
    Arrays.fill(bestOfSet, NEVER);
    this.base = new int[all];
    Arrays.fill(base, -1);
    List<Integer> small = new ArrayList<>();
    int states = 0;
    for (int size = 0; size < problem.request.limits().most(); size++) {
      for (int mask = 0; mask < all; mask++) {
        if (Integer.bitCount(mask) == size) {
          base[mask] = states;
          states += size;
          small.add(mask);
        }
      }
    }
    this.masks = small.stream().mapToInt(Integer::intValue).toArray();
    this.stateCount = states;
    this.ended = new long[stateCount * outfits * width];
    this.arrived = new long[outfits * width];
    this.firstEnded = new int[stateCount * outfits];
    this.firstArrived = new int[outfits];
  }

  /** Solves a problem. */
  static Solver solve(Problem problem) {
    Solver solver = new Solver(problem);
    for (int call = problem.steps; call >= 0; call--) {
      solver.from(call);
    }
    return solver;
  }

  /**
   * Whether any plan keeps all the rules; the late call times, which leave little to try, first.
   */
  static boolean isFeasible(Problem problem) {
    Solver solver = new Solver(problem);
    for (int call = problem.steps; call >= 0 && solver.solution == null; call--) {
      solver.from(call);
    }
    return solver.solution != null;
  }

  /** The best plan; nothing when no plan keeps all the rules. */
  Optional<Solution> solution() {
    return Optional.ofNullable(solution);
  }

  /** The worth of the best plan that has a candidate as a stop. */
  long bestWith(int candidate) {
    long with = NEVER;
    for (int mask = 0; mask < bestOfSet.length; mask++) {
      if ((mask & 1 << candidate) != 0) {
        with = Math.max(with, bestOfSet[mask]);
      }
    }
    return with;
  }

  private void from(int call) {
    Arrays.fill(ended, NEVER);
    Arrays.fill(firstEnded, width);
    int reach = Math.min(problem.lengthSteps, problem.steps - call);
    long before = best;
    for (int mask : masks) {
      for (int next = 0; next < problem.count; next++) {
        if ((mask & 1 << next) == 0 && arrive(mask, next, call, reach)) {
          stay(mask, next, call, reach);
        }
      }
    }
    if (best > before) {
      solution = new Solution(bestCall, backwards(), best);
    }
  }

  private int at(int mask, int last, int changed) {
    int rank = Integer.bitCount(mask & ((1 << last) - 1));
    return ((base[mask] + rank) * outfits + changed) * width;
  }

  /** Fills in the most that can have been earned when shooting at the next stop begins. */
  private boolean arrive(int mask, int next, int call, int reach) {
    Arrays.fill(arrived, NEVER);
    Arrays.fill(firstArrived, width);
    if (mask == 0) {
      int ready = problem.firstReadyMin[next];
      int step = problem.stepsFor(Math.max(0, ready));
      if (ready == Problem.NO_WAY || step > reach) {
        return false;
      }
      arrived[step] = -problem.firstDriveCost[next];
      firstArrived[0] = step;
      return true;
    }
    boolean any = false;
    for (int rest = mask; rest != 0; rest &= rest - 1) {
      int last = Integer.numberOfTrailingZeros(rest);
      if (problem.readyMin[last][next] != Problem.NO_WAY) {
        any |= arriveFrom(mask, last, next, call, reach);
      }
    }
    return any;
  }

  private boolean arriveFrom(int mask, int last, int next, int call, int reach) {
    int delay = problem.stepsFor(problem.readyMin[last][next]);
    int changing = problem.stepsFor(problem.readyMin[last][next] + problem.changeMin());
    long cost = problem.driveCost[last][next];
    boolean any = false;
    for (int changed = 0; changed < outfits; changed++) {
      int from = at(mask, last, changed);
      int start = firstEnded[from / width] + delay;
      if (start > reach) {
        continue;
      }
      any = true;
      firstArrived[changed] = Math.min(firstArrived[changed], start);
      int to = changed * width;
      long plain = NEVER;
      for (int step = start; step <= reach; step++) {
        plain = Math.max(plain, ended[from + step - delay]);
        arrived[to + step] = Math.max(arrived[to + step], plain - cost);
      }
      if (changed + 1 < outfits) {
        arriveChanged(last, next, call, reach, new Row(from, changing, to + width, cost));
      }
    }
    return any;
  }

  /** Values of leaving in one row, so many steps later values of arriving in another. */
  private record Row(int from, int delay, int to, long cost) {}

  private void arriveChanged(int last, int next, int call, int reach, Row row) {
    int start = firstEnded[row.from / width] + row.delay;
    int changed = row.to / width;
    firstArrived[changed] = Math.min(firstArrived[changed], start);
    long changedThere = NEVER;
    long any = NEVER;
    for (int step = start; step <= reach; step++) {
      long left = ended[row.from + step - row.delay];
      any = Math.max(any, left);
      if (left > changedThere && problem.canChangeAfter(last, call + step - row.delay)) {
        changedThere = left;
      }
      long with = problem.canChangeBefore(next, call + step) ? any : changedThere;
      if (with != NEVER) {
        arrived[row.to + step] = Math.max(arrived[row.to + step], with - row.cost);
      }
    }
  }

  /** Goes through the stays at the next stop. */
  private void stay(int mask, int next, int call, int reach) {
    StayTable stays = problem.stays[next];
    int with = mask | 1 << next;
    int position = Integer.bitCount(with);
    boolean goesOn = base[with] >= 0;
    boolean mayEnd =
        position >= problem.request.limits().least()
            && (with & problem.mustMask) == problem.mustMask;
    if (!(goesOn || mayEnd) || !problem.allowedAs(next, position)) {
      return;
    }
    long warmth = Worth.warmth(problem.candidates.get(next).warmth());
    for (int changed = goesOn ? 0 : Math.max(0, outfits - 2); changed < outfits; changed++) {
      for (int step = firstArrived[changed]; step <= reach; step++) {
        long before = arrived[changed * width + step];
        if (before == NEVER || !problem.allowedFrom(next, call + step)) {
          continue;
        }
        for (int within = 0; within <= 1 && changed + within < outfits; within++) {
          boolean ends = mayEnd && changed + within == outfits - 1;
          if (!goesOn && !ends) {
            continue;
          }
          int state = goesOn ? at(with, next, changed + within) : 0;
          for (int length = stays.leastSteps(); length <= stays.mostSteps(); length++) {
            int until = step + stays.busySteps(length, within == 1);
            if (until > reach) {
              break;
            }
            long mid = stays.worth(call + step, length, within, 0);
            if (mid == NEVER) {
              continue;
            }
            if (goesOn) {
              ended[state + until] = Math.max(ended[state + until], before + warmth + mid);
              firstEnded[state / width] = Math.min(firstEnded[state / width], until);
            }
            if (ends) {
              long worth = before + warmth + stays.worth(call + step, length, within, 1);
              bestOfSet[with] = Math.max(bestOfSet[with], worth);
              if (worth > best) {
                best = worth;
                bestCall = call;
                bestMask = with;
                bestLast =
                    new Solution.Stop(next, call + step, length, within == 1, Solution.Change.NONE);
              }
            }
          }
        }
      }
    }
  }

  /** Follows the values of the best plan back to its first stop. */
  private List<Solution.Stop> backwards() {
    Solution.Stop last = Objects.requireNonNull(bestLast);
    return new Backwards(problem, this::endedAt, bestCall).from(bestMask, last, best);
  }

  private long endedAt(int mask, int last, int changed, int step) {
    int relative = step - bestCall;
    return relative < 0 || relative >= width ? NEVER : ended[at(mask, last, changed) + relative];
  }
}
