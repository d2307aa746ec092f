package org.lightledger.web.chart;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.List;
import org.lightledger.geo.GeoPoint;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/**
 * The sun's way over one local day.
 *
 * @param points its directions through the day, in order of time
 * @param hours its directions at the full hours of the place's clock
 */
record SunPath(List<SunDirection> points, List<Hour> hours) {
  private static final int STEP_MINUTES = 6;

  SunPath {
    points = List.copyOf(points);
    hours = List.copyOf(hours);
  }

  /**
   * A full hour.
   *
   * @param hour the hour of the clock, 0..23
   * @param sun where the sun stands then
   */
  record Hour(int hour, SunDirection sun) {}

  /** Follows the sun from midnight to midnight; a local day may have 22 to 26 hours. */
  static SunPath of(SunEphemeris ephemeris, GeoPoint place, ZoneId zone, LocalDate day) {
    ZonedDateTime start = day.atStartOfDay(zone);
    Instant end = day.plusDays(1).atStartOfDay(zone).toInstant();
    List<SunDirection> points = new ArrayList<>();
    List<Hour> hours = new ArrayList<>();
    for (Instant at = start.toInstant();
        !at.isAfter(end);
        at = at.plusSeconds(STEP_MINUTES * 60L)) {
      SunDirection sun = ephemeris.direction(at, place);
      points.add(sun);
      ZonedDateTime local = at.atZone(zone);
      if (local.getMinute() == 0 && at.isBefore(end)) {
        hours.add(new Hour(local.getHour(), sun));
      }
    }
    return new SunPath(points, hours);
  }

  double highestDeg() {
    return points.stream().mapToDouble(SunDirection::apparentAltitudeDeg).max().orElse(0);
  }
}
