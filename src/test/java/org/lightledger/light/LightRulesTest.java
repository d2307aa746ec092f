package org.lightledger.light;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LightRulesTest {

  /** Common practice, no source: the classes and their limits are the trade's habit. */
  @ParameterizedTest
  @CsvSource({
    "10, 0, BACKLIT",
    "10, 30, BACKLIT",
    "10, -30, BACKLIT",
    "10, 30.01, RIM",
    "10, -75, RIM",
    "10, 75.01, SIDE",
    "10, 105, SIDE",
    "10, -105.01, THREE_QUARTER_FRONT",
    "10, 150, THREE_QUARTER_FRONT",
    "10, 150.01, FRONT",
    "10, 180, FRONT",
    "60.01, 0, OVERHEAD",
    "60, 0, BACKLIT",
    "-0.833, 0, BACKLIT",
    "-0.84, 0, TWILIGHT",
    "-6, 90, TWILIGHT",
    "-6.01, 0, DARK",
  })
  void classesByAltitudeAndTurn(double altitudeDeg, double turnDeg, LightClass light) {
    assertThat(LightRules.classify(altitudeDeg, altitudeDeg, turnDeg)).isEqualTo(light);
  }

  @Property
  void leftAndRightAreAlike(
      @ForAll @DoubleRange(min = -90, max = 90) double altitudeDeg,
      @ForAll @DoubleRange(min = -179.99, max = 180) double turnDeg) {
    assertThat(LightRules.classify(altitudeDeg, altitudeDeg, turnDeg))
        .isEqualTo(LightRules.classify(altitudeDeg, altitudeDeg, -turnDeg));
  }

  @Property
  void theClassHoldsWithinTheMargin(
      @ForAll @DoubleRange(min = -90, max = 90) double altitudeDeg,
      @ForAll @DoubleRange(min = -179.99, max = 180) double turnDeg,
      @ForAll @DoubleRange(min = -0.99, max = 0.99) double part) {
    double marginDeg = LightRules.marginDeg(altitudeDeg, altitudeDeg, turnDeg);
    LightClass light = LightRules.classify(altitudeDeg, altitudeDeg, turnDeg);

    assertThat(marginDeg).isNotNegative();
    double higherDeg = Math.max(-90, Math.min(90, altitudeDeg + part * marginDeg));
    assertThat(LightRules.classify(higherDeg, higherDeg, turnDeg)).isEqualTo(light);
    if (light != LightClass.OVERHEAD) {
      double asideDeg = turnDeg + part * marginDeg;
      double within =
          asideDeg > 180 ? asideDeg - 360 : asideDeg <= -180 ? asideDeg + 360 : asideDeg;
      assertThat(LightRules.classify(altitudeDeg, altitudeDeg, within)).isEqualTo(light);
    }
  }

  @Test
  void codesAreReadBack() {
    for (LightClass light : LightClass.values()) {
      assertThat(LightClass.parse(light.code())).isEqualTo(light);
    }
    assertThatThrownBy(() -> LightClass.parse("golden"))
        .hasMessageContaining("backlit, rim, side, three-quarter-front")
        .hasMessageContaining("\"golden\"");
  }
}
