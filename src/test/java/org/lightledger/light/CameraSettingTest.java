package org.lightledger.light;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CameraSettingTest {

  /** By hand: t = N² / 2^EV times 100 / S; 2.8 is 7.84 / 2^15 = 1/4180, f/2 at EV 8 is 1/64. */
  @ParameterizedTest
  @CsvSource({
    "15, 2.8, 100, 1/4000",
    "12, 2, 100, 1/1000",
    "10, 2.8, 200, 1/250",
    "8, 2, 400, 1/250",
    "14.97, 16, 200, 1/250",
    "4, 2.8, 6400, 1/125",
    "-3, 2, 6400, 0.5"
  })
  void settingsByHand(double ev100, double fNumber, int isoSpeed, String shutter) {
    CameraSetting setting = CameraSetting.near(ev100, fNumber);

    assertThat(setting.isoSpeed()).isEqualTo(isoSpeed);
    assertThat(setting.shutter()).isEqualTo(shutter);
    assertThat(setting.overStops()).isEqualTo(0, within(1 / 6.0 + 1e-9));
  }

  @Test
  void saysByHowMuchACameraFallsShort() {
    // f/2 wants 1/16384 at EV100 16: a stop faster than 1/8000, which stands for 1/8192.
    CameraSetting bright = CameraSetting.near(16, 2);
    assertThat(bright.shutter()).isEqualTo("1/8000");
    assertThat(bright.overStops()).isEqualTo(1, within(1e-9));
    assertThat(CameraSetting.near(-12, 2).overStops()).isNegative();
  }

  @Property
  void writtenAndMeantTimesAgree(
      @ForAll @DoubleRange(min = -8, max = 15) double ev100,
      @ForAll @DoubleRange(min = 2, max = 16) double fNumber) {
    CameraSetting setting = CameraSetting.near(ev100, fNumber);
    String written = setting.shutter();
    double seconds =
        written.startsWith("1/")
            ? 1 / Double.parseDouble(written.substring(2))
            : Double.parseDouble(written);

    // What is written is rounded, by 8 percent at most: 1/6 for 1/6.35, 10 for 10.08.
    assertThat(setting.exposureTimeS() / seconds).isBetween(0.92, 1.08);
    double got =
        Math.log(fNumber * fNumber / setting.exposureTimeS() * 100 / setting.isoSpeed())
            / Math.log(2);
    assertThat(got).isEqualTo(ev100 - setting.overStops(), within(1e-9));
    assertThat(setting.exposureTimeS() <= CameraSetting.LONGEST_S || setting.isoSpeed() == 6400)
        .isTrue();
  }

  @Test
  void refusesNumbersThatAreNone() {
    assertThatThrownBy(() -> CameraSetting.near(Double.NaN, 2)).hasMessageContaining("EV100");
    assertThatThrownBy(() -> CameraSetting.near(10, 0)).hasMessageContaining("f-number, found 0.0");
  }
}
