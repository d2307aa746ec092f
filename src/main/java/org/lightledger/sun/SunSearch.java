package org.lightledger.sun;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.lightledger.geo.GeoPoint;

/**
 * The sun over a place during a stretch of time: its highest and lowest moments and when it passes
 * an altitude.
 *
 * <p>The search first finds every turning point of the altitude, from samples of its slope ten
 * minutes apart, and then halves each rising or sinking stretch between them. So a sun that grazes
 * an altitude, as near the start and end of polar day, is not missed, and an instant is found to
 * the millisecond of the ephemeris; how exact it is in nature, refraction decides.
 *
 * <p>An instant belongs to the stretch when it is not before the start and before the end. At or
 * above an altitude counts as up.
 *
 * <p>Immutable; safe for use by several threads.
 */
public final class SunSearch {
  private static final double SAMPLE_S = 600.0;

  /** Halving stops here; instants are given in whole milliseconds. */
  private static final double RESOLUTION_S = 0.0005;

  private final SunCurve curve;
  private final GeoPoint place;
  private final Instant start;
  private final double startS;
  private final double endS;
  private final double longitude;
  private final double sinLatitude;
  private final double cosLatitude;

  /** Start, turning points and end, seconds along the curve. */
  private final double[] bends;

  private SunSearch(SunCurve curve, GeoPoint place, Instant start, Instant end) {
    this.curve = curve;
    this.place = place;
    this.start = start;
    startS = curve.offsetS(start);
    endS = curve.offsetS(end);
    longitude = Math.toRadians(place.longitudeDeg());
    sinLatitude = Math.sin(Math.toRadians(place.latitudeDeg()));
    cosLatitude = Math.cos(Math.toRadians(place.latitudeDeg()));
    bends = bends();
  }

  /**
   * Prepares a search.
   *
   * @param ephemeris where the sun is; a {@link SunCurve} that covers the stretch is used as it is
   * @param place where one looks from
   * @param start first instant
   * @param end the instant after the last, later than the start
   * @return the search
   * @throws IllegalArgumentException when the stretch is empty or the ephemeris does not serve it
   */
  public static SunSearch over(SunEphemeris ephemeris, GeoPoint place, Instant start, Instant end) {
    SunCurve curve =
        ephemeris instanceof SunCurve given && given.covers(start, end) && start.isBefore(end)
            ? given
            : SunCurve.of(ephemeris, start, end);
    return new SunSearch(curve, place, start, end);
  }

  /**
   * The next time the sun passes an altitude.
   *
   * @param ephemeris where the sun is
   * @param place where one looks from
   * @param from first instant looked at
   * @param within how far ahead to look
   * @param geometricAltitudeDeg altitude of the sun's centre without refraction, degrees
   * @return the first crossing, or nothing within that time
   */
  public static Optional<SunCrossing> next(
      SunEphemeris ephemeris,
      GeoPoint place,
      Instant from,
      Duration within,
      double geometricAltitudeDeg) {
    return over(ephemeris, place, from, from.plus(within)).crossings(geometricAltitudeDeg).stream()
        .findFirst();
  }

  /**
   * Every time the sun passes an altitude, in order.
   *
   * @param geometricAltitudeDeg altitude of the sun's centre without refraction, in [-90, 90]
   * @return the crossings, climbing and sinking by turns
   * @throws IllegalArgumentException when the altitude is out of its interval or not a number
   */
  public List<SunCrossing> crossings(double geometricAltitudeDeg) {
    double target = target(geometricAltitudeDeg);
    List<SunCrossing> crossings = new ArrayList<>();
    for (int i = 0; i + 1 < bends.length; i++) {
      boolean upBefore = up(bends[i]) >= target;
      if (upBefore != (up(bends[i + 1]) >= target)) {
        double low = bends[i];
        double high = bends[i + 1];
        while (high - low > RESOLUTION_S) {
          double middle = (low + high) / 2.0;
          if (up(middle) >= target == upBefore) {
            low = middle;
          } else {
            high = middle;
          }
        }
        crossings.add(new SunCrossing(instant(low), !upBefore));
      }
    }
    return List.copyOf(crossings);
  }

  /**
   * How the sun keeps to an altitude over the whole stretch.
   *
   * @param geometricAltitudeDeg altitude of the sun's centre without refraction, in [-90, 90]
   * @return up, down, or crossing
   * @throws IllegalArgumentException when the altitude is out of its interval or not a number
   */
  public SunState state(double geometricAltitudeDeg) {
    double target = target(geometricAltitudeDeg);
    boolean first = up(bends[0]) >= target;
    for (double bend : bends) {
      if (up(bend) >= target != first) {
        return SunState.CROSSES;
      }
    }
    return first ? SunState.ALWAYS_UP : SunState.ALWAYS_DOWN;
  }

  /**
   * The moment of the greatest altitude.
   *
   * @return it; an end of the stretch when the sun is higher there than at any turning point
   */
  public SunMoment highest() {
    double best = bends[0];
    for (double bend : bends) {
      best = up(bend) > up(best) ? bend : best;
    }
    return moment(best);
  }

  /**
   * The moment of the least altitude.
   *
   * @return it; an end of the stretch when the sun is lower there than at any turning point
   */
  public SunMoment lowest() {
    double best = bends[0];
    for (double bend : bends) {
      best = up(bend) < up(best) ? bend : best;
    }
    return moment(best);
  }

  /**
   * When the sun crosses the meridian on the side of noon.
   *
   * @return the upper transits, in order
   */
  public List<Instant> noons() {
    return transits(0.0);
  }

  /**
   * When the sun crosses the meridian on the side of midnight.
   *
   * @return the lower transits, in order
   */
  public List<Instant> midnights() {
    return transits(Math.PI);
  }

  /** Where the sun stands at an instant of the stretch, by the search's own curve. */
  SunDirection direction(Instant instant) {
    return curve.direction(instant, place);
  }

  private List<Instant> transits(double hourAngle) {
    double turn = 2.0 * Math.PI;
    double turnsAtEnd = (hourAngle(endS) - hourAngle) / turn;
    List<Instant> transits = new ArrayList<>();
    for (double k = Math.ceil((hourAngle(startS) - hourAngle) / turn); k < turnsAtEnd; k++) {
      double low = startS;
      double high = endS;
      while (high - low > RESOLUTION_S) {
        double middle = (low + high) / 2.0;
        if (hourAngle(middle) - hourAngle <= k * turn) {
          low = middle;
        } else {
          high = middle;
        }
      }
      transits.add(instant(low));
    }
    return List.copyOf(transits);
  }

  private double[] bends() {
    int samples = Math.max(1, (int) Math.ceil((endS - startS) / SAMPLE_S));
    List<Double> found = new ArrayList<>();
    found.add(startS);
    double before = startS;
    boolean risingBefore = slope(before) >= 0.0;
    for (int i = 1; i <= samples; i++) {
      double now = i == samples ? endS : startS + (endS - startS) * i / samples;
      boolean rising = slope(now) >= 0.0;
      if (rising != risingBefore) {
        double low = before;
        double high = now;
        while (high - low > RESOLUTION_S) {
          double middle = (low + high) / 2.0;
          if (slope(middle) >= 0.0 == risingBefore) {
            low = middle;
          } else {
            high = middle;
          }
        }
        found.add(low);
      }
      before = now;
      risingBefore = rising;
    }
    found.add(endS);
    return found.stream().mapToDouble(Double::doubleValue).toArray();
  }

  /** The vertical part of the unit vector towards the sun. */
  private double up(double offsetS) {
    double declination = curve.declination(offsetS);
    return sinLatitude * Math.sin(declination)
        + cosLatitude * Math.cos(declination) * Math.cos(hourAngle(offsetS));
  }

  /** Its change per second. */
  private double slope(double offsetS) {
    double declination = curve.declination(offsetS);
    double hourAngle = hourAngle(offsetS);
    double sinDeclination = Math.sin(declination);
    double cosDeclination = Math.cos(declination);
    return (sinLatitude * cosDeclination - cosLatitude * sinDeclination * Math.cos(hourAngle))
            * curve.declinationRate(offsetS)
        - cosLatitude * cosDeclination * Math.sin(hourAngle) * curve.hourAngleRate(offsetS);
  }

  private double hourAngle(double offsetS) {
    return curve.greenwichHourAngle(offsetS) + longitude;
  }

  private SunMoment moment(double offsetS) {
    Instant instant = instant(offsetS);
    return new SunMoment(instant, direction(instant));
  }

  /** Down to the whole millisecond, but not before the start. */
  private Instant instant(double offsetS) {
    Instant instant = curve.from().plusNanos((long) (offsetS * 1e9));
    Instant whole = Instant.ofEpochMilli(instant.toEpochMilli());
    return whole.isBefore(start) ? start : whole;
  }

  private static double target(double geometricAltitudeDeg) {
    if (!(geometricAltitudeDeg >= -90.0 && geometricAltitudeDeg <= 90.0)) {
      throw new IllegalArgumentException(
          "expected an altitude in [-90, 90] degrees, found " + geometricAltitudeDeg);
    }
    return SubsolarPoint.upAt(geometricAltitudeDeg);
  }
}
