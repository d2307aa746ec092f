package org.lightledger.sun;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.geo.Angles;
import org.lightledger.geo.GeoPoint;

class SpaEphemerisTest {
  private static final Instant EXAMPLE = Instant.parse("2003-10-17T19:30:30Z");
  private static final double EXAMPLE_DELTA_T = 67.0;

  private final SpaEphemeris ephemeris = new SpaEphemeris();

  /** NREL/TP-560-34302, table A5.1, to the last digit printed there. */
  @Test
  void everyStepOfTheWorkedExample() {
    SpaEphemeris.Steps steps = ephemeris.steps(EXAMPLE, EXAMPLE_DELTA_T);

    assertThat(Angles.normalizeDeg(steps.heliocentricLongitudeDeg()))
        .isCloseTo(24.0182616917, within(5e-10));
    assertThat(steps.heliocentricLatitudeDeg()).isCloseTo(-0.0001011219, within(5e-11));
    assertThat(steps.nutationInLongitudeDeg()).isCloseTo(-0.00399840, within(5e-9));
    assertThat(steps.nutationInObliquityDeg()).isCloseTo(0.00166657, within(5e-9));
    assertThat(steps.obliquityDeg()).isCloseTo(23.440465, within(5e-7));
    assertThat(Angles.normalizeDeg(steps.apparentLongitudeDeg()))
        .isCloseTo(204.0085519281, within(1e-6));
    assertThat(Angles.normalizeDeg(steps.siderealTimeDeg())).isCloseTo(318.511910, within(5e-7));
    assertThat(Angles.normalizeDeg(steps.rightAscensionDeg())).isCloseTo(202.227408, within(1e-6));
    assertThat(steps.declinationDeg()).isCloseTo(-9.31434, within(5e-6));
  }

  /** The radius is cut short, as {@code spa-earth-terms.csv} says: the printed one to 5e-5. */
  @Test
  void radiusIsExactEnoughForTheAberration() {
    assertThat(ephemeris.steps(EXAMPLE, EXAMPLE_DELTA_T).radiusAu())
        .isCloseTo(0.9965422974, within(5e-5));
  }

  /** The example's topocentric result; the spherical parallax stands off by 0.00006 at most. */
  @Test
  void directionOfTheWorkedExample() {
    SunDirection sun =
        ephemeris.at(EXAMPLE, EXAMPLE_DELTA_T).from(new GeoPoint(39.742476, -105.1786));

    assertThat(sun.azimuth().trueDeg()).isCloseTo(194.340241, within(0.00006));
    assertThat(sun.geometricAltitudeDeg()).isCloseTo(39.872046, within(0.00006));
  }

  /** Observed values, Espenak and Meeus, NASA/TP-2006-214141, table 2-1; fits within a second. */
  @ParameterizedTest
  @CsvSource({
    "1750, 13",
    "1800, 14",
    "1850, 7",
    "1900, -3",
    "1950, 29",
    "1955, 31.1",
    "1960, 33.2",
    "1965, 35.7",
    "1970, 40.2",
    "1975, 45.5",
    "1980, 50.5",
    "1985, 54.3",
    "1990, 56.9",
    "1995, 60.8",
    "2000, 63.8",
    "2005, 64.7"
  })
  void deltaTFollowsTheObservedValues(double year, double seconds) {
    assertThat(DeltaT.secondsInYear(year)).isCloseTo(seconds, within(1.0));
  }

  /** pvlib's published expectations of the same polynomials (BSD-3), mid-month. */
  @ParameterizedTest
  @CsvSource({
    "1800, 5, 13.596506", "1900, 6, -2.1171894", "1950, 7, 29.289261", "1970, 8, 40.824887",
    "1985, 2, 54.413442", "1990, 10, 57.426651", "2000, 11, 64.108015", "2005, 12, 65.038015",
    "2050, 12, 94.952955", "2150, 12, 330.50693"
  })
  void deltaTAgreesWithAnotherProgram(int year, int month, double seconds) {
    assertThat(DeltaT.secondsInYear(year + (month - 0.5) / 12)).isCloseTo(seconds, within(0.001));
  }

  @ParameterizedTest
  @ValueSource(ints = {1800, 1860, 1900, 1920, 1941, 1961, 1986, 2005, 2050, 2150})
  void neighbouringPolynomialsMeetWithinASecond(int seam) {
    assertThat(DeltaT.secondsInYear(Math.nextDown((double) seam)))
        .isCloseTo(DeltaT.secondsInYear(seam), within(1.0));
  }

  @Test
  void servesExactlyTheYears1700To2299() {
    assertThat(ephemeris.at(SpaEphemeris.FIRST)).isNotNull();
    assertThat(ephemeris.at(SpaEphemeris.END.minusNanos(1))).isNotNull();
    assertThatThrownBy(() -> ephemeris.at(SpaEphemeris.FIRST.minusNanos(1)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "the sun is known from 1700-01-01T00:00:00Z until 2300-01-01T00:00:00Z,"
                + " asked for 1699-12-31T23:59:59.999999999Z");
    assertThatThrownBy(() -> ephemeris.at(SpaEphemeris.END))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("asked for 2300-01-01T00:00:00Z");
    assertThatThrownBy(() -> ephemeris.at(Instant.MAX))
        .isInstanceOf(IllegalArgumentException.class);
  }

  /** The sun never leaves the tropics nor the equation of time its quarter of an hour or so. */
  @Property
  void staysInItsBelt(@ForAll @DoubleRange(min = 0.0, max = 1.0) @Scale(12) double share) {
    long span = SpaEphemeris.END.toEpochMilli() - SpaEphemeris.FIRST.toEpochMilli() - 1;
    Instant instant = SpaEphemeris.FIRST.plusMillis((long) (share * span));
    SubsolarPoint sun = ephemeris.at(instant);
    double meanSunDeg = Math.floorMod(instant.toEpochMilli(), 86_400_000L) / 240_000.0 - 180.0;

    assertThat(Math.abs(sun.declinationDeg())).isLessThan(23.49);
    assertThat(Math.abs(Angles.turnDeg(meanSunDeg, sun.greenwichHourAngleDeg()))).isLessThan(4.3);
  }
}
