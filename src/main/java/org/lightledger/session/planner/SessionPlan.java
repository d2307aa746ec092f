package org.lightledger.session.planner;

import java.time.Instant;
import java.util.List;
import org.lightledger.ask.Sky;

/**
 * The best plan of a session.
 *
 * @param sky the sky for which it is made
 * @param callTime when the session begins, at the meeting spot or the first stop
 * @param stops the stops in order
 * @param end when it ends
 * @param worthLightMin what it is worth, light minutes
 * @param warnings what to mind, in words
 * @param rejected the candidates that are no stops, with what they lacked
 */
public record SessionPlan(
    Sky sky,
    Instant callTime,
    List<PlannedStop> stops,
    Instant end,
    double worthLightMin,
    List<String> warnings,
    List<Rejected> rejected) {

  /** Keeps its own copies. */
  public SessionPlan {
    stops = List.copyOf(stops);
    warnings = List.copyOf(warnings);
    rejected = List.copyOf(rejected);
  }

  /**
   * The stops' spots.
   *
   * @return their numbers, in order
   */
  public List<Long> order() {
    return stops.stream().map(PlannedStop::spotId).toList();
  }
}
