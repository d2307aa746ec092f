package org.lightledger.session.planner;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;

/** Says in what one plan differs from another. */
final class Differences {
  private Differences() {}

  static List<String> between(SessionPlan before, SessionPlan now, ZoneId zone) {
    List<String> differs = new ArrayList<>();
    for (PlannedStop stop : before.stops()) {
      if (!now.order().contains(stop.spotId())) {
        differs.add(stop.name() + " is no stop.");
      }
    }
    for (PlannedStop stop : now.stops()) {
      if (!before.order().contains(stop.spotId())) {
        differs.add(
            "%s is a stop, from %s to %s."
                .formatted(
                    stop.name(),
                    Words.hour(stop.shootFrom(), zone),
                    Words.hour(stop.shootUntil(), zone)));
      }
    }
    if (differs.isEmpty() && !before.order().equals(now.order())) {
      differs.add(
          "The same stops in another order: "
              + String.join(", ", now.stops().stream().map(PlannedStop::name).toList())
              + ".");
    }
    for (PlannedStop stop : now.stops()) {
      before.stops().stream()
          .filter(old -> old.spotId() == stop.spotId())
          .filter(
              old ->
                  !old.shootFrom().equals(stop.shootFrom())
                      || !old.shootUntil().equals(stop.shootUntil()))
          .findFirst()
          .ifPresent(
              old ->
                  differs.add(
                      "%s from %s to %s instead of %s to %s."
                          .formatted(
                              stop.name(),
                              Words.hour(stop.shootFrom(), zone),
                              Words.hour(stop.shootUntil(), zone),
                              Words.hour(old.shootFrom(), zone),
                              Words.hour(old.shootUntil(), zone))));
    }
    if (!before.callTime().equals(now.callTime())) {
      differs.add(
          "Call time %s instead of %s."
              .formatted(Words.hour(now.callTime(), zone), Words.hour(before.callTime(), zone)));
    }
    return differs;
  }
}
