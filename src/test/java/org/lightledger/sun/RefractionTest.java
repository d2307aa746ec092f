package org.lightledger.sun;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RefractionTest {
  private static final double ARC_MINUTE_DEG = 1.0 / 60.0;

  /**
   * Meeus, Astronomical Algorithms, 2nd ed. 1998, example 16.a: the upper limb's true altitude of
   * 33.246 arc minutes is lifted by 24.618.
   */
  @Example
  void exampleOfMeeus() {
    assertThat(Refraction.apparentAltitudeDeg(33.246 * ARC_MINUTE_DEG))
        .isCloseTo((33.246 + 24.618) * ARC_MINUTE_DEG, within(0.001 * ARC_MINUTE_DEG));
  }

  /**
   * Bennett's formula goes the other way, from apparent to true (Meeus, formula 16.3); the two
   * agree within 4 arc seconds (page 106).
   */
  @Property
  void undoneByBennett(@ForAll @DoubleRange(min = -0.5, max = 90.0) @Scale(12) double altitudeDeg) {
    double apparentDeg = Refraction.apparentAltitudeDeg(altitudeDeg);
    double bennettDeg =
        ARC_MINUTE_DEG / Math.tan(Math.toRadians(apparentDeg + 7.31 / (apparentDeg + 4.4)));

    assertThat(apparentDeg - bennettDeg).isCloseTo(altitudeDeg, within(4.5 / 3600.0));
  }

  @Property
  void growsWithTheAltitude(
      @ForAll @DoubleRange(min = -90.0, max = 90.0) @Scale(12) double lowDeg,
      @ForAll @DoubleRange(min = 1e-9, max = 2.0) @Scale(12) double stepDeg) {
    double highDeg = Math.min(90.0, lowDeg + stepDeg);

    assertThat(Refraction.apparentAltitudeDeg(highDeg))
        .isGreaterThanOrEqualTo(Refraction.apparentAltitudeDeg(lowDeg));
  }

  @Property
  void isContinuousAndLiftsByLessThanTwoThirdsOfADegree(
      @ForAll @DoubleRange(min = -90.0, max = 89.999) @Scale(12) double altitudeDeg) {
    double apparentDeg = Refraction.apparentAltitudeDeg(altitudeDeg);

    assertThat(apparentDeg).isBetween(altitudeDeg, altitudeDeg + 0.65);
    assertThat(Refraction.apparentAltitudeDeg(altitudeDeg + 1e-7))
        .isCloseTo(apparentDeg, within(2e-7));
  }

  @Example
  void meetsAtTheSeamAndAtTheEnds() {
    assertThat(Refraction.apparentAltitudeDeg(Math.nextDown(-1.0)))
        .isCloseTo(Refraction.apparentAltitudeDeg(-1.0), within(1e-12));
    assertThat(Refraction.apparentAltitudeDeg(90.0)).isEqualTo(90.0);
    assertThat(Refraction.apparentAltitudeDeg(-90.0)).isCloseTo(-90.0, within(1e-12));
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, 90.0000001, -90.0000001, Double.POSITIVE_INFINITY})
  void refusesWhatIsNoAltitude(double altitudeDeg) {
    assertThatThrownBy(() -> Refraction.apparentAltitudeDeg(altitudeDeg))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("expected an altitude in [-90, 90] degrees, found " + altitudeDeg);
  }
}
