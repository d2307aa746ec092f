package org.lightledger.ask;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;

/**
 * Turns a stretch of clock time into instants. A local time that a clock change leaves out gives
 * none; one that a clock change repeats gives both.
 */
final class Moments {
  /** How far apart the instants of a stretch lie; the window's ends are found exactly later. */
  private static final long STEP_S = 300;

  private Moments() {}

  static List<Instant> of(TimeOfDay.Clock time, LocalDate day, ZoneId zone) {
    return of(time, day, zone, STEP_S);
  }

  /** The same, so many seconds apart; the last moment of the stretch is always among them. */
  static List<Instant> of(TimeOfDay.Clock time, LocalDate day, ZoneId zone, long stepS) {
    if (time.from().equals(time.to())) {
      return resolve(day, time.from(), zone);
    }
    Instant from = edge(LocalDateTime.of(day, time.from()), zone, 0);
    Instant to = edge(LocalDateTime.of(day, time.to()), zone, 1);
    if (!from.atZone(zone).toLocalDate().equals(day) || !from.isBefore(to)) {
      return List.of();
    }
    List<Instant> instants = new ArrayList<>();
    for (Instant next = from; next.isBefore(to); next = next.plusSeconds(stepS)) {
      instants.add(next);
    }
    instants.add(to);
    return instants;
  }

  /**
   * A time that is left out is where the clocks leave it out; of a repeated one the first or last.
   */
  private static Instant edge(LocalDateTime local, ZoneId zone, int last) {
    List<ZoneOffset> offsets = zone.getRules().getValidOffsets(local);
    return offsets.isEmpty()
        ? zone.getRules().getTransition(local).getInstant()
        : local.toInstant(offsets.get(Math.min(last, offsets.size() - 1)));
  }

  private static List<Instant> resolve(LocalDate day, LocalTime time, ZoneId zone) {
    LocalDateTime local = LocalDateTime.of(day, time);
    List<Instant> instants = new ArrayList<>();
    for (ZoneOffset offset : zone.getRules().getValidOffsets(local)) {
      instants.add(local.toInstant(offset));
    }
    return instants;
  }
}
