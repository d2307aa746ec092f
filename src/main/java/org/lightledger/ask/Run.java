package org.lightledger.ask;

import java.time.Duration;
import java.time.Instant;
import java.util.List;

/**
 * What of one window of a wanted light lies within the asked hours of a day.
 *
 * @param moments the asked moments within it, in order, one or more
 * @param from its start, or that of the asked hours
 * @param to its end, or that of the asked hours
 */
record Run(List<Candidate> moments, Instant from, Instant to) {

  /** Keeps its own copy. */
  Run {
    moments = List.copyOf(moments);
  }

  /** How long it is, in whole minutes. */
  long minutes() {
    return Duration.between(from, to).toMinutes();
  }
}
