package org.lightledger.session.planner;

import java.util.List;

/**
 * A plan in numbers.
 *
 * @param callStep the call time
 * @param stops the stops in order
 * @param worth what it is worth, thousandths of a light minute
 */
record Solution(int callStep, List<Stop> stops, long worth) {

  /** Where the outfit is changed on the way to a stop. */
  enum Change {
    /** Not at all. */
    NONE,
    /** At the stop before, before leaving it. */
    AT_THE_ONE_BEFORE,
    /** At the stop itself, before shooting. */
    HERE
  }

  /**
   * A stop.
   *
   * @param candidate its index
   * @param fromStep shooting begins
   * @param steps steps of shooting
   * @param changedWithin whether the outfit is changed during the stay
   * @param change whether and where it is changed on the way there
   */
  record Stop(int candidate, int fromStep, int steps, boolean changedWithin, Change change) {}

  Solution {
    stops = List.copyOf(stops);
  }
}
