package org.lightledger.web.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.lightledger.light.LightClass;
import org.lightledger.light.LightRules;
import org.w3c.dom.Element;

class LightGlyphTest {

  @ParameterizedTest
  @EnumSource(LightClass.class)
  void screenReadersPassOverAGlyphBecauseItsWordStandsBesideIt(LightClass light) {
    assertThat(new Parsed(LightGlyph.of(light)).root().getAttribute("aria-hidden"))
        .isEqualTo("true");
  }

  @Test
  void noTwoGlyphsHaveTheSameShape() {
    Set<String> shapes =
        Arrays.stream(LightClass.values())
            .map(light -> LightGlyph.of(light).markup().replaceAll(" class=\"[^\"]*\"", ""))
            .collect(Collectors.toSet());

    assertThat(shapes).hasSize(LightClass.values().length);
  }

  @ParameterizedTest
  @EnumSource(
      value = LightClass.class,
      names = {"BACKLIT", "RIM", "SIDE", "THREE_QUARTER_FRONT", "FRONT"})
  void theTypicalSunLiesInsideItsClass(LightClass light) {
    assertThat(LightRules.classify(20, 20, LightGlyph.typicalTurnDeg(light))).isEqualTo(light);
  }

  @ParameterizedTest
  @CsvSource({"0, 0, -1", "90, 1, 0", "-90, -1, 0", "180, 0, 1"})
  void theSunStandsOnItsTrueSideWithTheCameraBelow(double turnDeg, double right, double down) {
    Parsed glyph = new Parsed(LightGlyph.of(LightClass.SIDE, turnDeg));
    Element sun = glyph.one("circle", "g-sun");
    Element subject = glyph.one("circle", "g-shade");
    double x = Parsed.number(sun, "cx") - Parsed.number(subject, "cx");
    double y = Parsed.number(sun, "cy") - Parsed.number(subject, "cy");
    double distance = Math.hypot(x, y);

    assertThat(x / distance).isCloseTo(right, within(0.01));
    assertThat(y / distance).isCloseTo(down, within(0.01));
  }

  @Test
  void everythingStaysInsideTheDrawing() {
    for (int turnDeg = -180; turnDeg <= 180; turnDeg += 5) {
      Element sun = new Parsed(LightGlyph.of(LightClass.RIM, turnDeg)).one("circle", "g-sun");
      double radius = Parsed.number(sun, "r");

      assertThat(Parsed.number(sun, "cx")).isBetween(radius, 44 - radius);
      assertThat(Parsed.number(sun, "cy")).isBetween(radius, 44 - radius);
    }
  }
}
