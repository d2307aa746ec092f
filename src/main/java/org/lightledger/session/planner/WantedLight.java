package org.lightledger.session.planner;

import java.util.Optional;

/**
 * When a candidate has a wanted light along any of its facings.
 *
 * @param fromMin first such minute of the frame
 * @param untilMin the minute after the last
 */
record WantedLight(int fromMin, int untilMin) {

  /** Looks through the frame. */
  static Optional<WantedLight> of(PlanRequest request, PlanCandidate candidate) {
    SpotSunlight light = candidate.light(request.sky());
    int first = -1;
    int last = -1;
    for (int minute = 0; minute < request.frame().spanMin(); minute++) {
      int told = light.minuteOf(request.frame().at(minute));
      if (told >= 0
          && told < light.minutes()
          && light.alongFacings().stream()
              .anyMatch(
                  along ->
                      candidate.weights(request.sky()).wants(along.minutes().get(told).light()))) {
        first = first < 0 ? minute : first;
        last = minute;
      }
    }
    return first < 0 ? Optional.empty() : Optional.of(new WantedLight(first, last + 1));
  }
}
