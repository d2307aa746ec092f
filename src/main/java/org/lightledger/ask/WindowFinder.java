package org.lightledger.ask;

import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.light.LightRules;
import org.lightledger.sun.SunEphemeris;

/**
 * Finds how long a light holds around a moment: it walks to both sides in steps of a minute until
 * the class changes, then halves the step down to a tenth of a second.
 *
 * <p>A change of class that comes and goes within one minute is not seen. That takes a sun within
 * about a degree of the zenith, where the class is overhead anyway.
 */
final class WindowFinder {
  private static final long STEP_MS = 60_000;
  private static final long FINEST_MS = 100;

  private final SunEphemeris sun;

  WindowFinder(SunEphemeris sun) {
    this.sun = sun;
  }

  /** The stretch of the local day around the moment in which the class is the moment's. */
  Answer.Window around(Instant moment, GeoPoint place, Bearing facing, ZoneId zone) {
    LocalDate day = moment.atZone(zone).toLocalDate();
    long dayStart = day.atStartOfDay(zone).toInstant().toEpochMilli();
    long dayEnd = day.plusDays(1).atStartOfDay(zone).toInstant().toEpochMilli();
    long at = moment.toEpochMilli();
    LightClass light = classAt(at, place, facing);
    return new Answer.Window(
        local(edge(at, dayStart, -STEP_MS, light, place, facing), zone),
        local(edge(at, dayEnd, STEP_MS, light, place, facing), zone));
  }

  private long edge(
      long from, long limit, long stepMs, LightClass light, GeoPoint place, Bearing facing) {
    long inside = from;
    while (inside != limit) {
      long next = stepMs < 0 ? Math.max(limit, inside + stepMs) : Math.min(limit, inside + stepMs);
      if (classAt(next, place, facing) != light) {
        return halve(inside, next, light, place, facing);
      }
      inside = next;
    }
    return limit;
  }

  private long halve(long inside, long outside, LightClass light, GeoPoint place, Bearing facing) {
    long in = inside;
    long out = outside;
    while (Math.abs(out - in) > FINEST_MS) {
      long middle = (in + out) / 2;
      if (classAt(middle, place, facing) == light) {
        in = middle;
      } else {
        out = middle;
      }
    }
    return in;
  }

  private LightClass classAt(long epochMs, GeoPoint place, Bearing facing) {
    return LightRules.classify(sun.direction(Instant.ofEpochMilli(epochMs), place), facing);
  }

  private static OffsetDateTime local(long epochMs, ZoneId zone) {
    return Instant.ofEpochMilli(epochMs).atZone(zone).toOffsetDateTime();
  }
}
