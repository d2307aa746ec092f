package org.lightledger.skyline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class MeasuredSkylineTest {
  @Test
  void joinsPointsAroundTheCircle() {
    Skyline skyline =
        MeasuredSkyline.parse(List.of("azimuth,altitude", "", "# the church", "350,10", "10, 20"));

    assertThat(skyline.altitudeDegAt(350.0)).isEqualTo(10.0);
    assertThat(skyline.altitudeDegAt(0.0)).isEqualTo(15.0, within(1e-5));
    assertThat(skyline.altitudeDegAt(10.0)).isEqualTo(20.0);
    assertThat(skyline.altitudeDegAt(180.0)).isEqualTo(15.0, within(1e-5));
    assertThat(skyline.altitudeDegAt(95.0)).isEqualTo(17.5, within(1e-5));
    for (int step = 0; step < Skyline.STEPS; step++) {
      assertThat(skyline.source(step)).isEqualTo(SkylineSource.MEASURED);
      assertThat(skyline.lowerBoundOnly(step)).isFalse();
    }
  }

  /** One degree at a reading; halfway between 10 and 20 half of the difference joins it. */
  @Test
  void isLessSureBetweenPoints() {
    Skyline skyline = MeasuredSkyline.parse(List.of("0,10", "180,20"));

    assertThat(skyline.uncertaintyDeg(0)).isEqualTo(1.0);
    assertThat(skyline.uncertaintyDeg(180)).isEqualTo(Math.hypot(1.0, 5.0), within(1e-6));
    assertThat(skyline.uncertaintyDeg(540)).isEqualTo(Math.hypot(1.0, 5.0), within(1e-6));
  }

  @Test
  void orderDoesNotMatterAndNoHeaderIsNeeded() {
    assertThat(MeasuredSkyline.parse(List.of("\uFEFF270,3", "0.5,4", "90,1")))
        .isEqualTo(MeasuredSkyline.parse(List.of("90,1", "270,3", "0.5,4")));
  }

  @Test
  void decimalCommasAreRefused() {
    assertThatThrownBy(() -> MeasuredSkyline.parse(List.of("10,5,20,5", "20;8,5")))
        .hasMessage(
            "line 1: expected azimuth,altitude such as 135.5,8.2, found \"10,5,20,5\"; write"
                + " decimals with a point and one comma between the two numbers; line 2: expected"
                + " azimuth,altitude such as 135.5,8.2, found \"20;8,5\"; write decimals with a"
                + " point and one comma between the two numbers");
  }

  @Test
  void namesEveryBadLine() {
    assertThatThrownBy(
            () -> MeasuredSkyline.parse(List.of("azimuth,altitude", "360,1", "1,91", "x,2", "7")))
        .hasMessageContaining("line 2: expected an azimuth in [0, 360) degrees, found 360.0")
        .hasMessageContaining("line 3: expected an altitude in [-90, 90] degrees, found 91.0")
        .hasMessageContaining("line 4: expected azimuth,altitude such as 135.5,8.2, found \"x,2\"")
        .hasMessageContaining("line 5: expected azimuth,altitude");
    assertThatThrownBy(() -> MeasuredSkyline.parse(List.of("1,2")))
        .hasMessage("expected at least 2 points of azimuth and altitude, found 1");
    assertThatThrownBy(() -> MeasuredSkyline.parse(List.of("1,2", "1,3")))
        .hasMessage("expected one altitude for each azimuth, found two for azimuth 1.0");
    assertThatThrownBy(() -> MeasuredSkyline.parse(List.of("NaN,2", "1,3")))
        .hasMessageContaining("found NaN");
  }
}
