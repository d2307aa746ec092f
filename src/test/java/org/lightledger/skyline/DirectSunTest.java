package org.lightledger.skyline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.GeoPoint;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunCurve;
import org.lightledger.sun.SunDay;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEventKind;

class DirectSunTest {
  private static final GeoPoint VALLEY = new GeoPoint(46.5, 10.5);
  private static final ZoneId ZONE = ZoneId.of("Europe/Rome");
  private static final LocalDate DATE = LocalDate.of(2026, 6, 12);
  private static final Instant START = DATE.atStartOfDay(ZONE).toInstant();
  private static final Instant END = DATE.plusDays(1).atStartOfDay(ZONE).toInstant();
  private static final SunCurve CURVE = SunCurve.of(new SpaEphemeris(), START, END);

  private static Skyline level(double altitudeDeg, double uncertaintyDeg) {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      builder.set(step, altitudeDeg, uncertaintyDeg, SkylineSource.TERRAIN, Set.of());
    }
    return builder.build();
  }

  /** A jagged ring: ridges, five towers two degrees wide, a deep notch in the west. */
  private static Skyline jagged() {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      double azimuth = Skyline.azimuthDeg(step);
      double altitude = 8.0 + 5.0 * Math.sin(Math.toRadians(azimuth * 5.0));
      if (azimuth >= 90.0 && azimuth < 265.0 && azimuth % 35.0 <= 2.0) {
        altitude = 75.0;
      } else if (azimuth >= 280.0 && azimuth <= 283.0) {
        altitude = 1.0;
      }
      builder.set(step, altitude, 0.3, SkylineSource.TERRAIN, Set.of());
    }
    return builder.build();
  }

  private static boolean clear(Skyline skyline, Instant instant, double raisedSigmas) {
    SunDirection sun = CURVE.direction(instant, VALLEY);
    double azimuth = sun.azimuth().trueDeg();
    return sun.apparentAltitudeDeg()
        > skyline.altitudeDegAt(azimuth) + raisedSigmas * skyline.uncertaintyDegAt(azimuth);
  }

  /** Every second of the day, one after the other. */
  private static List<Instant> changes(Skyline skyline, double raisedSigmas) {
    List<Instant> changes = new ArrayList<>();
    boolean before = clear(skyline, START, raisedSigmas);
    for (Instant at = START; at.isBefore(END); at = at.plusSeconds(1)) {
      boolean now = clear(skyline, at, raisedSigmas);
      if (now != before) {
        changes.add(at);
      }
      before = now;
    }
    return changes;
  }

  @Test
  void findsWhatEverySecondFinds() {
    Skyline skyline = jagged();
    DirectSun sun = DirectSun.over(CURVE, skyline, VALLEY, START, END);
    List<Instant> ends = new ArrayList<>();
    for (DirectSun.Stretch stretch : sun.stretches()) {
      ends.add(stretch.from());
      ends.add(stretch.to());
    }
    List<Instant> expected = changes(skyline, 0.0);

    assertThat(expected).hasSizeGreaterThan(5);
    assertThat(ends).hasSameSizeAs(expected);
    for (int i = 0; i < ends.size(); i++) {
      assertThat(Math.abs(Duration.between(ends.get(i), expected.get(i)).toMillis()))
          .isLessThanOrEqualTo(1250);
    }
    Duration sum =
        sun.stretches().stream()
            .map(DirectSun.Stretch::length)
            .reduce(Duration.ZERO, Duration::plus);
    assertThat(sun.between(START, END)).isEqualTo(sum);
  }

  @Test
  void uncertaintyMovesTheEnds() {
    Skyline skyline = level(10.0, 0.5);
    DirectSun.Stretch stretch =
        DirectSun.over(CURVE, skyline, VALLEY, START, END).stretches().get(0);
    List<Instant> possible = changes(skyline, -1.0);
    List<Instant> certain = changes(skyline, 1.0);

    assertThat(seconds(possible.get(0), stretch.earliestFrom())).isEqualTo(0.0, within(1.25));
    assertThat(seconds(possible.get(1), stretch.latestTo())).isEqualTo(0.0, within(1.25));
    assertThat(stretch.certain()).hasSize(1);
    assertThat(seconds(certain.get(0), stretch.certain().get(0).from()))
        .isEqualTo(0.0, within(1.25));
    assertThat(seconds(certain.get(1), stretch.certain().get(0).to())).isEqualTo(0.0, within(1.25));
    assertThat(stretch.earliestFrom()).isBefore(stretch.from());
    assertThat(stretch.firstLimb()).isBefore(stretch.from());
    assertThat(stretch.lastLimb()).isAfter(stretch.to());
    assertThat(stretch.lowerBoundOnly()).isFalse();
  }

  /** However uncertain the skyline is, below the level horizon no sun is possible. */
  @Test
  void noBoundLiesBeforeSunriseOrAfterSunset() {
    SunDay day = SunDay.of(CURVE, VALLEY, ZONE, DATE);
    Instant sunrise = day.event(SunEventKind.SUNRISE).orElseThrow();
    Instant sunset = day.event(SunEventKind.SUNSET).orElseThrow();

    DirectSun.Stretch stretch =
        DirectSun.over(CURVE, level(10.0, 14.6), VALLEY, START, END).stretches().get(0);
    assertThat(seconds(sunrise, stretch.earliestFrom())).isEqualTo(0.0, within(0.5));
    assertThat(seconds(sunset, stretch.latestTo())).isEqualTo(0.0, within(0.5));
    assertThat(stretch.from()).isAfter(stretch.earliestFrom());
    assertThat(stretch.to()).isBefore(stretch.latestTo());

    DirectSun.Stretch lookedDownUpon =
        DirectSun.over(CURVE, level(-3.0, 0.2), VALLEY, START, END).stretches().get(0);
    assertThat(seconds(sunrise, lookedDownUpon.from())).isEqualTo(0.0, within(0.5));
    assertThat(seconds(sunset, lookedDownUpon.to())).isEqualTo(0.0, within(0.5));
  }

  /** On the level the last limb is the almanac's sunset, but for its rounded refraction. */
  @Test
  void theLastLimbOnTheLevelIsSunset() {
    DirectSun sun = DirectSun.over(CURVE, level(0.0, 0.1), VALLEY, START, END);
    Instant sunset = SunDay.of(CURVE, VALLEY, ZONE, DATE).event(SunEventKind.SUNSET).orElseThrow();

    // Refraction of that limb is 34 arc minutes in the almanac, about 37 in the formula used here.
    assertThat(seconds(sunset, sun.stretches().get(0).lastLimb())).isBetween(0.0, 40.0);
    assertThat(sun.lostBefore(sunset).orElseThrow())
        .isBetween(Duration.ofMinutes(1), Duration.ofMinutes(4));
    assertThat(sun.between(sunset.minusSeconds(3600), sunset).plus(sun.lostBefore(sunset).get()))
        .isEqualTo(Duration.ofHours(1));
  }

  @Test
  void noSunBehindAHighWall() {
    DirectSun sun = DirectSun.over(CURVE, level(80.0, 0.1), VALLEY, START, END);

    assertThat(sun.stretches()).isEmpty();
    assertThat(sun.first()).isEmpty();
    assertThat(sun.last()).isEmpty();
    assertThat(sun.lostBefore(END)).isEmpty();
    assertThat(sun.between(START, END)).isZero();
  }

  @Test
  void theEndsOfWhatWasAskedAreNoCrossings() {
    Instant noon = Instant.parse("2026-06-12T11:00:00Z");
    DirectSun sun = DirectSun.over(CURVE, Skyline.notKnown(), VALLEY, noon, noon.plusSeconds(3601));

    assertThat(sun.stretches())
        .singleElement()
        .satisfies(
            stretch -> {
              assertThat(stretch.from()).isEqualTo(noon);
              assertThat(stretch.to()).isEqualTo(noon.plusSeconds(3601));
              assertThat(stretch.lowerBoundOnly()).isFalse();
            });
    assertThat(DirectSun.over(CURVE, Skyline.notKnown(), VALLEY, START, END).stretches())
        .singleElement()
        .matches(DirectSun.Stretch::lowerBoundOnly);
    assertThatThrownBy(() -> DirectSun.over(CURVE, Skyline.notKnown(), VALLEY, noon, noon))
        .hasMessageStartingWith("expected a stretch within");
  }

  private static double seconds(Instant from, Instant to) {
    return Duration.between(from, to).toMillis() / 1000.0;
  }
}
