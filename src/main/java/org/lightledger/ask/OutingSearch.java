package org.lightledger.ask;

import java.util.ArrayList;
import java.util.List;

/**
 * The best order and times of an outing: for each set of visits, the last of them and the time it
 * began, the smallest sum of costs.
 */
final class OutingSearch {
  private final double[][] costs;
  private final int stay;
  private final int[][] driveSteps;
  private final int spots;
  private final int times;

  /** The smallest sum for a set and its last visit, begun at a time or before. */
  private final double[][][] least;

  /** When the last visit of that sum begins. */
  private final int[][][] begun;

  /** How many steps of the grid a drive takes. */
  @FunctionalInterface
  interface Steps {
    int between(int from, int to);
  }

  /** A visit of a plan that begins at a step of the grid. */
  record Visited(int plan, int time) {}

  /**
   * A search.
   *
   * @param costs by plan and step of the grid: what a visit costs that begins then; infinite where
   *     it may not
   * @param stay how many steps a visit takes
   * @param steps how many steps a drive takes
   */
  OutingSearch(double[][] costs, int stay, Steps steps) {
    this.costs = costs;
    this.stay = stay;
    this.spots = costs.length;
    this.times = costs[0].length;
    this.driveSteps = new int[spots][spots];
    for (int from = 0; from < spots; from++) {
      for (int to = 0; to < spots; to++) {
        driveSteps[from][to] = steps.between(from, to);
      }
    }
    this.least = new double[1 << spots][spots][];
    this.begun = new int[1 << spots][spots][];
  }

  /** The visits in order: as many as can be, and among those the cheapest. */
  List<Visited> best() {
    int bestSet = 0;
    int bestLast = -1;
    double bestSum = Double.POSITIVE_INFINITY;
    for (int set = 1; set < 1 << spots && times > 0; set++) {
      for (int last = 0; last < spots; last++) {
        if ((set & 1 << last) != 0) {
          fill(set, last);
          double sum = least[set][last][times - 1];
          int more = Integer.bitCount(set) - Integer.bitCount(bestSet);
          if (sum < Double.POSITIVE_INFINITY && (more > 0 || more == 0 && sum < bestSum)) {
            bestSet = set;
            bestLast = last;
            bestSum = sum;
          }
        }
      }
    }
    return bestSet == 0 ? List.of() : visits(bestSet, bestLast);
  }

  private void fill(int set, int last) {
    double[] sums = new double[times];
    int[] at = new int[times];
    int before = set & ~(1 << last);
    for (int time = 0; time < times; time++) {
      double sum = costs[last][time];
      if (before != 0 && sum < Double.POSITIVE_INFINITY) {
        sum += arrivedBy(before, last, time);
      }
      boolean better = time == 0 || sum < sums[time - 1];
      sums[time] = better ? sum : sums[time - 1];
      at[time] = better ? time : at[time - 1];
    }
    least[set][last] = sums;
    begun[set][last] = at;
  }

  private double arrivedBy(int before, int last, int time) {
    int from = from(before, last, time);
    return from < 0 ? Double.POSITIVE_INFINITY : least[before][from][latest(from, last, time)];
  }

  /** From where one comes best, or -1. */
  private int from(int before, int last, int time) {
    int best = -1;
    double bestSum = Double.POSITIVE_INFINITY;
    for (int from = 0; from < spots; from++) {
      if ((before & 1 << from) != 0) {
        int latest = latest(from, last, time);
        if (latest >= 0 && least[before][from][latest] < bestSum) {
          best = from;
          bestSum = least[before][from][latest];
        }
      }
    }
    return best;
  }

  /** When the visit before has to begin at the latest. */
  private int latest(int from, int to, int time) {
    return time - stay - driveSteps[from][to];
  }

  private List<Visited> visits(int set, int last) {
    List<Visited> visits = new ArrayList<>();
    int open = set;
    int to = last;
    int time = begun[set][last][times - 1];
    while (open != 0) {
      visits.add(0, new Visited(to, time));
      open &= ~(1 << to);
      if (open != 0) {
        int from = from(open, to, time);
        time = begun[open][from][latest(from, to, time)];
        to = from;
      }
    }
    return List.copyOf(visits);
  }
}
