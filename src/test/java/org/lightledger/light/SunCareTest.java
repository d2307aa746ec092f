package org.lightledger.light;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SunCareTest {
  @ParameterizedTest
  @CsvSource({
    "BACKLIT, 30, true",
    "BACKLIT, 30.1, false",
    "BACKLIT, -0.5, true",
    "RIM, 5, false",
    "OPEN_SHADE, 5, false",
    "FRONT, 5, false"
  })
  void isDueWhereOneLooksTowardsALowSun(LightClass light, double altitudeDeg, boolean due) {
    assertThat(SunCare.isDue(light, altitudeDeg)).isEqualTo(due);
  }
}
