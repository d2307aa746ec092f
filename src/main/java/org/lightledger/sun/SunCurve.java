package org.lightledger.sun;

import java.time.Duration;
import java.time.Instant;
import org.lightledger.geo.Angles;
import org.lightledger.geo.GeoPoint;

/**
 * The sun over a stretch of time, for questions asked many times: the subsolar point of another
 * ephemeris, sampled at most a day apart and interpolated by cubics.
 *
 * <p>Declination and the equation of time move so slowly that the cubic through four neighbouring
 * samples stays within {@value #ERROR_BOUND_DEG} degrees of the ephemeris: the fourth derivative,
 * most of it the monthly swing of the earth about its common centre with the moon, is about 1e-5
 * degrees per day to the fourth, and the remainder of cubic interpolation at most a 24th of that.
 *
 * <p>Immutable; safe for use by several threads.
 */
public final class SunCurve implements SunEphemeris {
  /** How far the curve may be from its ephemeris, in declination or hour angle, degrees. */
  public static final double ERROR_BOUND_DEG = 0.000002;

  private static final double LONGEST_STEP_S = 86_400.0;
  private static final double FULL_TURN = 2.0 * Math.PI;

  /** The mean sun turns once in a day. */
  private static final double MEAN_SUN_RATE = FULL_TURN / 86_400.0;

  private static final int FEWEST_STEPS = 3;
  private static final int PER_STEP = 8;

  private final Instant from;
  private final Instant to;
  private final double lengthS;
  private final double stepS;
  private final int steps;

  /** Greenwich hour angle of the mean sun at the start, radians. */
  private final double meanSunAtStart;

  /** For each step four coefficients of the declination and four of the equation of time. */
  private final double[] coefficients;

  private SunCurve(Instant from, Instant to, double lengthS, SunEphemeris ephemeris) {
    this.from = from;
    this.to = to;
    this.lengthS = lengthS;
    steps = Math.max(FEWEST_STEPS, (int) Math.ceil(lengthS / LONGEST_STEP_S));
    stepS = lengthS / steps;
    meanSunAtStart =
        MEAN_SUN_RATE * Math.floorMod(from.getEpochSecond(), 86_400L)
            + MEAN_SUN_RATE * from.getNano() / 1e9
            - Math.PI;
    double[] declination = new double[steps + 1];
    double[] equation = new double[steps + 1];
    for (int i = 0; i <= steps; i++) {
      Instant node = i == steps ? to : from.plusNanos(Math.round(i * stepS * 1e9));
      SubsolarPoint sun = ephemeris.at(node);
      double meanSunDeg = Math.toDegrees(meanSunAtStart + MEAN_SUN_RATE * (i * stepS));
      declination[i] = Math.toRadians(sun.declinationDeg());
      equation[i] = Math.toRadians(Angles.turnDeg(meanSunDeg, sun.greenwichHourAngleDeg()));
    }
    coefficients = new double[steps * PER_STEP];
    for (int i = 0; i < steps; i++) {
      fit(declination, i, coefficients, i * PER_STEP);
      fit(equation, i, coefficients, i * PER_STEP + 4);
    }
  }

  /**
   * The curve of an ephemeris.
   *
   * @param ephemeris what to follow; asked only within the stretch
   * @param from start of the stretch
   * @param to end of the stretch, later than the start
   * @return the curve, which serves both ends too
   * @throws IllegalArgumentException when the stretch is empty
   */
  public static SunCurve of(SunEphemeris ephemeris, Instant from, Instant to) {
    if (!from.isBefore(to)) {
      throw new IllegalArgumentException(
          "expected a start before the end, found " + from + " and " + to);
    }
    return new SunCurve(from, to, seconds(Duration.between(from, to)), ephemeris);
  }

  /**
   * Where the curve starts.
   *
   * @return the first instant served
   */
  public Instant from() {
    return from;
  }

  /**
   * Where the curve ends.
   *
   * @return the last instant served
   */
  public Instant to() {
    return to;
  }

  /**
   * Tells whether the curve serves a whole stretch.
   *
   * @param start first instant
   * @param end last instant
   * @return true when both lie within the curve
   */
  public boolean covers(Instant start, Instant end) {
    return !start.isBefore(from) && !end.isAfter(to);
  }

  @Override
  public SubsolarPoint at(Instant instant) {
    double offsetS = offsetS(instant);
    double hourAngleDeg = Math.toDegrees(greenwichHourAngle(offsetS));
    return new SubsolarPoint(
        Math.toDegrees(declination(offsetS)), Angles.normalizeDeg(hourAngleDeg));
  }

  /**
   * The geometric altitude alone, without making objects: for scans.
   *
   * @param epochMilli when, in milliseconds of the Unix clock, within the curve
   * @param place where one looks from
   * @return altitude of the sun's centre without refraction, degrees in [-90, 90]
   */
  public double geometricAltitudeDeg(long epochMilli, GeoPoint place) {
    double offsetS =
        (Math.floorDiv(epochMilli, 1000L) - from.getEpochSecond())
            + (Math.floorMod(epochMilli, 1000L) * 1e6 - from.getNano()) / 1e9;
    if (!isWithin(offsetS)) {
      throw outside(Instant.ofEpochMilli(epochMilli));
    }
    double declination = declination(offsetS);
    double hourAngle = greenwichHourAngle(offsetS) + Math.toRadians(place.longitudeDeg());
    double latitude = Math.toRadians(place.latitudeDeg());
    return SubsolarPoint.geometricAltitudeDeg(
        Math.sin(latitude) * Math.sin(declination)
            + Math.cos(latitude) * Math.cos(declination) * Math.cos(hourAngle));
  }

  /** Seconds from the curve's start to an instant within it. */
  double offsetS(Instant instant) {
    double offsetS =
        (instant.getEpochSecond() - from.getEpochSecond())
            + (instant.getNano() - from.getNano()) / 1e9;
    if (!isWithin(offsetS)) {
      throw outside(instant);
    }
    return offsetS;
  }

  /** Declination, radians. */
  double declination(double offsetS) {
    int step = step(offsetS);
    return value(step * PER_STEP, offsetS / stepS - step);
  }

  /** Change of the declination, radians per second. */
  double declinationRate(double offsetS) {
    int step = step(offsetS);
    return slope(step * PER_STEP, offsetS / stepS - step) / stepS;
  }

  /** Greenwich hour angle, radians, growing without jumps along the curve. */
  double greenwichHourAngle(double offsetS) {
    int step = step(offsetS);
    return meanSunAtStart
        + MEAN_SUN_RATE * offsetS
        + value(step * PER_STEP + 4, offsetS / stepS - step);
  }

  /** Change of the hour angle, radians per second. */
  double hourAngleRate(double offsetS) {
    int step = step(offsetS);
    return MEAN_SUN_RATE + slope(step * PER_STEP + 4, offsetS / stepS - step) / stepS;
  }

  private int step(double offsetS) {
    return Math.max(0, Math.min(steps - 1, (int) (offsetS / stepS)));
  }

  private double value(int at, double x) {
    return ((coefficients[at + 3] * x + coefficients[at + 2]) * x + coefficients[at + 1]) * x
        + coefficients[at];
  }

  private double slope(int at, double x) {
    return (3.0 * coefficients[at + 3] * x + 2.0 * coefficients[at + 2]) * x + coefficients[at + 1];
  }

  private boolean isWithin(double offsetS) {
    return offsetS >= 0.0 && offsetS <= lengthS;
  }

  private IllegalArgumentException outside(Instant instant) {
    return new IllegalArgumentException(
        "expected an instant from " + from + " to " + to + ", found " + instant);
  }

  /**
   * The cubic through four neighbouring samples, as coefficients of x in [0, 1] along one step
   * (Newton's forward differences, then moved to the step's start). At both ends of the curve the
   * four samples are the outermost ones.
   */
  private static void fit(double[] samples, int step, double[] into, int at) {
    int first = Math.max(0, Math.min(samples.length - 4, step - 1));
    double y0 = samples[first];
    double d1 = samples[first + 1] - y0;
    double d2 = samples[first + 2] - 2.0 * samples[first + 1] + y0;
    double d3 = samples[first + 3] - 3.0 * samples[first + 2] + 3.0 * samples[first + 1] - y0;
    double b1 = d1 - d2 / 2.0 + d3 / 3.0;
    double b2 = d2 / 2.0 - d3 / 2.0;
    double b3 = d3 / 6.0;
    double shift = step - first;
    into[at] = y0 + shift * (b1 + shift * (b2 + shift * b3));
    into[at + 1] = b1 + shift * (2.0 * b2 + shift * 3.0 * b3);
    into[at + 2] = b2 + 3.0 * shift * b3;
    into[at + 3] = b3;
  }

  private static double seconds(Duration duration) {
    return duration.getSeconds() + duration.getNano() / 1e9;
  }
}
