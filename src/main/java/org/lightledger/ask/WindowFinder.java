package org.lightledger.ask;

import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.Skyline;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/**
 * Finds how long a light holds around a moment: it walks to both sides in steps of a minute until
 * the class changes, then halves the step down to a tenth of a second. Where the skyline may cut in
 * within a minute, it walks by seconds.
 *
 * <p>A turn of the sun past the line of view that comes and goes within one minute is not seen.
 * That takes a sun within about a degree of the zenith, where the class is overhead anyway.
 */
final class WindowFinder {
  private static final long STEP_MS = 60_000;
  private static final long FINE_STEP_MS = 1_000;
  private static final long FINEST_MS = 100;

  /** More than the sun rises above both ends of a step in between, degrees. */
  private static final double CULMINATION_DEG = 0.001;

  /** As much for two asked moments, five minutes apart: it grows with the square of the time. */
  private static final double FAR_CULMINATION_DEG = 25 * CULMINATION_DEG;

  private final SunEphemeris sun;

  WindowFinder(SunEphemeris sun) {
    this.sun = sun;
  }

  /** Where a light is looked for. */
  record View(GeoPoint place, Bearing facing, @Nullable Skyline skyline, ZoneId zone, Sky sky) {

    LightClass classOf(SunDirection sun) {
      return SpotLight.classOf(sun, facing, skyline, sky);
    }
  }

  /** The stretch of the local day around the moment in which the class is the moment's. */
  Answer.Window around(Instant moment, View view) {
    LightClass light = view.classOf(at(moment.toEpochMilli(), view));
    Walk walk = new Walk(view, direction -> view.classOf(direction) == light);
    return new Answer.Window(
        local(walk.edge(moment, startOfDay(moment, view), -1), view),
        local(walk.edge(moment, endOfDay(moment, view), 1), view));
  }

  /**
   * The last moment up to which a moment's light holds, on the way to another, later or earlier by
   * the distance of asked moments at most. It walks only where the skyline may cut in between;
   * elsewhere the light changes once at most.
   */
  Instant lastLike(Instant moment, Instant other, View view) {
    SunDirection sunThere = at(moment.toEpochMilli(), view);
    SunDirection sunAtOther = at(other.toEpochMilli(), view);
    LightClass light = view.classOf(sunThere);
    Walk walk = new Walk(view, direction -> view.classOf(direction) == light);
    long otherMs = other.toEpochMilli();
    if (walk.skylineMayCutIn(sunThere, sunAtOther, FAR_CULMINATION_DEG)) {
      return Instant.ofEpochMilli(walk.edge(moment, otherMs, other.isAfter(moment) ? 1 : -1));
    }
    return view.classOf(sunAtOther) == light
        ? other
        : Instant.ofEpochMilli(walk.halve(moment.toEpochMilli(), otherMs));
  }

  /** All stretches of a local day in which the light is one of some classes, in order. */
  List<Answer.Window> of(LocalDate day, View view, Set<LightClass> lights) {
    List<Answer.Window> windows = new ArrayList<>();
    Instant from = day.atStartOfDay(view.zone()).toInstant();
    long end = day.plusDays(1).atStartOfDay(view.zone()).toInstant().toEpochMilli();
    while (from.toEpochMilli() < end) {
      boolean wanted = lights.contains(view.classOf(at(from.toEpochMilli(), view)));
      Walk walk = new Walk(view, direction -> lights.contains(view.classOf(direction)) == wanted);
      long edge = walk.edge(from, end, 1);
      if (wanted) {
        windows.add(new Answer.Window(local(from.toEpochMilli(), view), local(edge, view)));
      }
      from = Instant.ofEpochMilli(edge == end ? end : edge + FINEST_MS);
    }
    return windows;
  }

  /** When the sun, which reaches the spot at the moment, leaves it; by the end of the local day. */
  OffsetDateTime directUntil(Instant moment, View view) {
    Walk walk = new Walk(view, direction -> direct(direction, view));
    return local(walk.edge(moment, endOfDay(moment, view), 1), view);
  }

  /** Only what is known counts: the sun may be hidden where nothing is known. */
  private static boolean direct(SunDirection direction, View view) {
    return Boolean.TRUE.equals(
        SpotLight.of(direction, view.facing(), view.skyline(), view.sky()).directSun());
  }

  /** A walk along the time while something holds of the sun. */
  private final class Walk {
    private final View view;
    private final Predicate<SunDirection> holds;

    Walk(View view, Predicate<SunDirection> holds) {
      this.view = view;
      this.holds = holds;
    }

    /** The last millisecond before the limit, forward or back, up to which it holds. */
    long edge(Instant from, long limit, int sign) {
      long inside = from.toEpochMilli();
      SunDirection last = at(inside, view);
      while (inside != limit) {
        long next = towards(limit, inside, sign * STEP_MS);
        SunDirection sunThere = at(next, view);
        if (!holds.test(sunThere) || skylineMayCutIn(last, sunThere, CULMINATION_DEG)) {
          long end = fineEdge(inside, next, sign);
          if (end != next) {
            return end;
          }
        }
        inside = next;
        last = sunThere;
      }
      return limit;
    }

    private long fineEdge(long from, long to, int sign) {
      long inside = from;
      while (inside != to) {
        long next = towards(to, inside, sign * FINE_STEP_MS);
        if (!holds.test(at(next, view))) {
          return halve(inside, next);
        }
        inside = next;
      }
      return to;
    }

    private long halve(long inside, long outside) {
      long in = inside;
      long out = outside;
      while (Math.abs(out - in) > FINEST_MS) {
        long middle = (in + out) / 2;
        if (holds.test(at(middle, view))) {
          in = middle;
        } else {
          out = middle;
        }
      }
      return in;
    }

    private boolean skylineMayCutIn(SunDirection one, SunDirection other, double culminationDeg) {
      Skyline skyline = view.skyline();
      if (skyline == null) {
        return false;
      }
      double oneDeg = one.azimuth().trueDeg();
      double otherDeg = other.azimuth().trueDeg();
      double low = Math.min(one.apparentAltitudeDeg(), other.apparentAltitudeDeg());
      double high =
          Math.max(one.apparentAltitudeDeg(), other.apparentAltitudeDeg()) + culminationDeg;
      return skyline.highestDegBetween(oneDeg, otherDeg) >= low
          && skyline.lowestDegBetween(oneDeg, otherDeg) <= high;
    }
  }

  private static long towards(long limit, long from, long stepMs) {
    return stepMs < 0 ? Math.max(limit, from + stepMs) : Math.min(limit, from + stepMs);
  }

  private SunDirection at(long epochMs, View view) {
    return sun.direction(Instant.ofEpochMilli(epochMs), view.place());
  }

  private static long startOfDay(Instant moment, View view) {
    return day(moment, view).atStartOfDay(view.zone()).toInstant().toEpochMilli();
  }

  private static long endOfDay(Instant moment, View view) {
    return day(moment, view).plusDays(1).atStartOfDay(view.zone()).toInstant().toEpochMilli();
  }

  private static LocalDate day(Instant moment, View view) {
    return moment.atZone(view.zone()).toLocalDate();
  }

  private static OffsetDateTime local(long epochMs, View view) {
    return Instant.ofEpochMilli(epochMs).atZone(view.zone()).toOffsetDateTime();
  }
}
