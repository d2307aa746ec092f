package org.lightledger.sun;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.LongRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Angles;
import org.lightledger.geo.GeoPoint;
import org.lightledger.sun.suncalc.SuncalcEphemeris;

class SunCurveTest {
  private static final Instant START = Instant.parse("2024-01-01T00:00:00Z");

  /** Between the middle two of four samples a cubic is off by 9/16 of its error at the ends. */
  private static final double CENTRED_BOUND_DEG = 0.0000003;

  private final SpaEphemeris ephemeris = new SpaEphemeris();

  /** A prime number of seconds apart, so that the samples fall anywhere within the steps. */
  @Test
  void staysWithinItsBoundForTwoYears() {
    Instant end = START.plus(Duration.ofDays(731));
    SunCurve curve = SunCurve.of(ephemeris, START, end);
    double worst = 0.0;
    for (Instant at = START; at.isBefore(end); at = at.plusSeconds(2_003)) {
      worst = Math.max(worst, missDeg(curve, ephemeris, at));
    }
    SunRows.tell("curve against ephemeris, degrees", worst);
    assertThat(worst).isLessThan(CENTRED_BOUND_DEG);
  }

  /** The search for turning points lives on these. */
  @Property
  void ratesAreThoseOfTheValues(
      @ForAll @DoubleRange(min = 1_000.0, max = 1_700_000.0) @Scale(3) double offsetS) {
    SunCurve curve = SunCurve.of(ephemeris, START, START.plus(Duration.ofDays(20)));
    double halfS = 900.0;
    double declinationRate =
        (curve.declination(offsetS + halfS) - curve.declination(offsetS - halfS)) / (2 * halfS);
    double hourAngleRate =
        (curve.greenwichHourAngle(offsetS + halfS) - curve.greenwichHourAngle(offsetS - halfS))
            / (2 * halfS);

    assertThat(curve.declinationRate(offsetS)).isCloseTo(declinationRate, within(2e-13));
    assertThat(curve.hourAngleRate(offsetS)).isCloseTo(hourAngleRate, within(2e-13));
  }

  @Property
  void equalsTheEphemerisAnywhere(
      @ForAll @LongRange(min = -8_000_000_000L, max = 10_000_000_000L) long startSecond,
      @ForAll @LongRange(min = 1, max = 40L * 86_400_000L) long lengthMs,
      @ForAll @DoubleRange(min = 0.0, max = 1.0) @Scale(12) double share) {
    Instant start = Instant.ofEpochSecond(startSecond, 123_456_789);
    SunCurve curve = SunCurve.of(ephemeris, start, start.plusMillis(lengthMs));
    Instant at = start.plusMillis((long) (share * lengthMs));

    assertThat(missDeg(curve, ephemeris, at)).isLessThan(SunCurve.ERROR_BOUND_DEG);
  }

  @Property
  void altitudeAloneIsTheAltitudeOfTheDirection(
      @ForAll @LongRange(min = 0, max = 20L * 86_400_000L) long offsetMs,
      @ForAll @DoubleRange(min = -90.0, max = 90.0) @Scale(12) double latitudeDeg,
      @ForAll @DoubleRange(min = -180.0, max = 180.0) @Scale(12) double longitudeDeg) {
    SunCurve curve = SunCurve.of(ephemeris, START, START.plus(Duration.ofDays(20)));
    GeoPoint place = new GeoPoint(latitudeDeg, longitudeDeg);
    Instant at = START.plusMillis(offsetMs);

    assertThat(curve.geometricAltitudeDeg(at.toEpochMilli(), place))
        .isCloseTo(curve.direction(at, place).geometricAltitudeDeg(), within(2e-6));
  }

  @Test
  void followsWhicheverEphemerisItIsGiven() {
    SuncalcEphemeris suncalc = new SuncalcEphemeris();
    SunCurve curve = SunCurve.of(suncalc, START, START.plus(Duration.ofDays(30)));
    Instant at = START.plus(Duration.ofHours(500));

    assertThat(missDeg(curve, suncalc, at)).isLessThan(0.0005);
    assertThat(missDeg(curve, ephemeris, at)).isGreaterThan(0.0005);
  }

  @Test
  void servesBothEndsAndNothingBeyond() {
    Instant end = START.plus(Duration.ofDays(2));
    SunCurve curve = SunCurve.of(ephemeris, START, end);
    GeoPoint place = new GeoPoint(0.0, 0.0);

    assertThat(missDeg(curve, ephemeris, START)).isLessThan(SunCurve.ERROR_BOUND_DEG);
    assertThat(missDeg(curve, ephemeris, end)).isLessThan(SunCurve.ERROR_BOUND_DEG);
    assertThat(curve.covers(START, end)).isTrue();
    assertThat(curve.covers(START.minusNanos(1), end)).isFalse();
    assertThat(curve.covers(START, end.plusNanos(1))).isFalse();
    assertThatThrownBy(() -> curve.at(START.minusMillis(1)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "expected an instant from 2024-01-01T00:00:00Z to 2024-01-03T00:00:00Z, found"
                + " 2023-12-31T23:59:59.999Z");
    assertThatThrownBy(() -> curve.geometricAltitudeDeg(end.toEpochMilli() + 1, place))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("found 2024-01-03T00:00:00.001Z");
  }

  /** The ephemeris is never asked outside the stretch, so its first and last day work too. */
  @Test
  void reachesTheEndsOfTheEphemeris() {
    Instant last = SpaEphemeris.END.minusMillis(1);

    assertThat(SunCurve.of(ephemeris, SpaEphemeris.FIRST, SpaEphemeris.FIRST.plusSeconds(1)))
        .isNotNull();
    assertThat(SunCurve.of(ephemeris, last.minusSeconds(100_000), last).to()).isEqualTo(last);
    assertThatThrownBy(() -> SunCurve.of(ephemeris, last, SpaEphemeris.END))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void refusesAnEmptyStretch() {
    assertThatThrownBy(() -> SunCurve.of(ephemeris, START, START))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "expected a start before the end, found 2024-01-01T00:00:00Z and 2024-01-01T00:00:00Z");
  }

  private static double missDeg(SunEphemeris found, SunEphemeris expected, Instant at) {
    SubsolarPoint a = found.at(at);
    SubsolarPoint b = expected.at(at);
    return Math.max(
        Math.abs(a.declinationDeg() - b.declinationDeg()),
        Math.abs(Angles.turnDeg(a.greenwichHourAngleDeg(), b.greenwichHourAngleDeg())));
  }
}
