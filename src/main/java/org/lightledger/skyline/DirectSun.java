package org.lightledger.skyline;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import org.lightledger.geo.GeoPoint;
import org.lightledger.sun.SunCurve;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunThreshold;

/**
 * When the sun reaches a spot over a stretch of time, such as a day.
 *
 * <p>Direct sun is when the centre of the disc stands above the skyline in apparent altitude, from
 * sunrise to sunset: a low or uncertain skyline never lets it begin earlier or end later. While the
 * limb is cut the light is partial; {@link Stretch} tells when the first and last of the disc
 * shows. The crossings are found to half a second by halving, from samples {@value #SAMPLE_S}
 * seconds apart: what comes and goes between two samples is not seen.
 */
public final class DirectSun {
  private static final long SAMPLE_S = 20;
  private static final long RESOLUTION_MS = 500;

  private final SunCurve curve;
  private final Skyline skyline;
  private final GeoPoint place;
  private final Instant from;
  private final Instant to;
  private final SunDirection[] samples;
  private final List<Stretch> stretches;

  /** A stretch without the rest. */
  private record Span(Instant from, Instant to) {
    boolean holds(Span other) {
      return !other.from.isBefore(from) && !other.to.isAfter(to);
    }
  }

  /**
   * A stretch of direct sun.
   *
   * @param from when the centre of the disc clears the skyline, or the start of what was asked
   * @param to when it goes behind, or the end of what was asked
   * @param earliestFrom the start if the skyline is lower by its standard deviation
   * @param latestTo the end if it is
   * @param certain the stretches within that are left if the skyline is higher by its standard
   *     deviation; none when the whole stretch is in doubt
   * @param firstLimb when the first of the disc shows
   * @param lastLimb when the last of it shows
   * @param lowerBoundOnly true when at an end that the skyline makes, it is a lower bound: the
   *     stretch may be shorter
   */
  public record Stretch(
      Instant from,
      Instant to,
      Instant earliestFrom,
      Instant latestTo,
      List<Window> certain,
      Instant firstLimb,
      Instant lastLimb,
      boolean lowerBoundOnly) {

    /** Keeps its own copy. */
    public Stretch {
      certain = List.copyOf(certain);
    }

    /**
     * How long it lasts.
     *
     * @return the time between its ends
     */
    public Duration length() {
      return Duration.between(from, to);
    }
  }

  /**
   * A start and an end.
   *
   * @param from start
   * @param to end
   */
  public record Window(Instant from, Instant to) {}

  private DirectSun(SunCurve curve, Skyline skyline, GeoPoint place, Instant from, Instant to) {
    this.curve = curve;
    this.skyline = skyline;
    this.place = place;
    this.from = from;
    this.to = to;
    this.samples = samples();
    this.stretches = find();
  }

  /**
   * Finds the direct sun.
   *
   * @param curve where the sun is; covers the whole stretch
   * @param skyline the spot's
   * @param place the spot
   * @param from start of the stretch, such as the first instant of a local day
   * @param to its end, later than the start
   * @return when the sun reaches the spot
   * @throws IllegalArgumentException when the stretch is empty or not covered
   */
  public static DirectSun over(
      SunCurve curve, Skyline skyline, GeoPoint place, Instant from, Instant to) {
    if (!from.isBefore(to) || !curve.covers(from, to)) {
      throw new IllegalArgumentException(
          "expected a stretch within %s and %s, found %s and %s"
              .formatted(curve.from(), curve.to(), from, to));
    }
    return new DirectSun(curve, skyline, place, from, to);
  }

  /**
   * All stretches of direct sun, in order.
   *
   * @return none when the sun never reaches the spot
   */
  public List<Stretch> stretches() {
    return stretches;
  }

  /**
   * When the sun first reaches the spot.
   *
   * @return the start of the first stretch
   */
  public Optional<Instant> first() {
    return stretches.stream().findFirst().map(Stretch::from);
  }

  /**
   * When the sun last leaves the spot.
   *
   * @return the end of the last stretch
   */
  public Optional<Instant> last() {
    return stretches.isEmpty()
        ? Optional.empty()
        : Optional.of(stretches.get(stretches.size() - 1).to());
  }

  /**
   * How much direct sun there is between two instants, such as an hour before the published sunset
   * and that sunset.
   *
   * @param start first instant
   * @param end last instant
   * @return the time, zero or more
   */
  public Duration between(Instant start, Instant end) {
    Duration sum = Duration.ZERO;
    for (Stretch stretch : stretches) {
      Instant low = stretch.from().isBefore(start) ? start : stretch.from();
      Instant high = stretch.to().isAfter(end) ? end : stretch.to();
      if (low.isBefore(high)) {
        sum = sum.plus(Duration.between(low, high));
      }
    }
    return sum;
  }

  /**
   * How long before an instant, such as the published sunset, the spot has lost the sun.
   *
   * @param instant when
   * @return zero when the spot is in direct sun until then; nothing when it never was before
   */
  public Optional<Duration> lostBefore(Instant instant) {
    Optional<Duration> lost = Optional.empty();
    for (Stretch stretch : stretches) {
      if (stretch.from().isBefore(instant)) {
        Instant end = stretch.to().isBefore(instant) ? stretch.to() : instant;
        lost = Optional.of(Duration.between(end, instant));
      }
    }
    return lost;
  }

  private List<Stretch> find() {
    List<Span> centre = spans(sun -> centreClears(sun, 0.0));
    List<Span> possible = spans(sun -> centreClears(sun, -1.0));
    List<Span> certain = spans(sun -> centreClears(sun, 1.0));
    List<Span> limb = spans(this::limbClears);
    List<Stretch> found = new ArrayList<>();
    for (Span span : centre) {
      Span widest = around(span, possible);
      Span disc = around(span, limb);
      List<Window> within =
          certain.stream()
              .filter(span::holds)
              .map(kept -> new Window(kept.from(), kept.to()))
              .toList();
      boolean bound =
          (span.from().isAfter(from) && lowerBoundOnly(span.from()))
              || (span.to().isBefore(to) && lowerBoundOnly(span.to()));
      found.add(
          new Stretch(
              span.from(),
              span.to(),
              widest.from(),
              widest.to(),
              within,
              disc.from(),
              disc.to(),
              bound));
    }
    return List.copyOf(found);
  }

  /** The span that holds another one; itself where rounding hides it. */
  private static Span around(Span span, List<Span> wider) {
    return wider.stream().filter(candidate -> candidate.holds(span)).findFirst().orElse(span);
  }

  private boolean lowerBoundOnly(Instant instant) {
    return skyline.clearance(curve.direction(instant, place)).lowerBoundOnly();
  }

  private SunDirection[] samples() {
    long steps = (Duration.between(from, to).toMillis() + SAMPLE_S * 1000 - 1) / (SAMPLE_S * 1000);
    SunDirection[] suns = new SunDirection[Math.toIntExact(steps) + 1];
    for (int i = 0; i < suns.length; i++) {
      suns[i] = curve.direction(sampleAt(i), place);
    }
    return suns;
  }

  private Instant sampleAt(int sample) {
    Instant instant = from.plusSeconds(sample * SAMPLE_S);
    return instant.isBefore(to) ? instant : to;
  }

  private List<Span> spans(Predicate<SunDirection> clears) {
    List<Span> spans = new ArrayList<>();
    boolean clearBefore = clears.test(samples[0]);
    Instant start = from;
    for (int i = 1; i < samples.length; i++) {
      boolean clear = clears.test(samples[i]);
      if (clear != clearBefore) {
        Instant crossing = crossing(sampleAt(i - 1), sampleAt(i), clears);
        if (clearBefore) {
          spans.add(new Span(start, crossing));
        }
        start = crossing;
      }
      clearBefore = clear;
    }
    if (clearBefore) {
      spans.add(new Span(start, to));
    }
    return spans;
  }

  private Instant crossing(Instant low, Instant high, Predicate<SunDirection> clears) {
    boolean clearLow = clears.test(curve.direction(low, place));
    long lowMs = low.toEpochMilli();
    long highMs = high.toEpochMilli();
    while (highMs - lowMs > RESOLUTION_MS) {
      long middle = lowMs + (highMs - lowMs) / 2;
      if (clears.test(curve.direction(Instant.ofEpochMilli(middle), place)) == clearLow) {
        lowMs = middle;
      } else {
        highMs = middle;
      }
    }
    return Instant.ofEpochMilli(lowMs + (highMs - lowMs) / 2);
  }

  /** Whether the centre clears the skyline raised by so many of its standard deviations. */
  private boolean centreClears(SunDirection sun, double sigmas) {
    double azimuthDeg = sun.azimuth().trueDeg();
    double edgeDeg =
        skyline.altitudeDegAt(azimuthDeg) + sigmas * skyline.uncertaintyDegAt(azimuthDeg);
    return sun.geometricAltitudeDeg() >= SunThreshold.HORIZON.geometricAltitudeDeg()
        && sun.apparentAltitudeDeg() > edgeDeg;
  }

  /** Whether anything of the disc shows, above the skyline and above the level horizon. */
  private boolean limbClears(SunDirection sun) {
    double edgeDeg = Math.max(0.0, skyline.altitudeDegAt(sun.azimuth().trueDeg()));
    return sun.apparentAltitudeDeg() + SolarDisc.RADIUS_DEG > edgeDeg;
  }
}
