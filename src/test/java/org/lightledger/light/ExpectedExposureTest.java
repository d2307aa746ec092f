package org.lightledger.light;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.geo.Bearing;
import org.lightledger.sun.SunDirection;
import org.lightledger.testing.Reference;

class ExpectedExposureTest {
  private static final List<Map<String, String>> TABLE =
      Reference.read(Path.of("src/test/resources/daylight/ev100.csv"));

  private static double tabulated(String beginning) {
    return TABLE.stream()
        .filter(row -> row.get("condition").startsWith(beginning))
        .mapToDouble(row -> Double.parseDouble(row.get("ev100")))
        .findAny()
        .orElseThrow();
  }

  private static double number(Map<String, String> row, String column) {
    return Double.parseDouble(row.get(column));
  }

  private static ExpectedExposure looking(double sunAltitudeDeg, double facingFromSunDeg) {
    return ExpectedExposure.of(
        new SunDirection(new Bearing(200), sunAltitudeDeg, sunAltitudeDeg),
        Bearing.of(200 + facingFromSunDeg),
        SkyCondition.CLEAR);
  }

  @Test
  void theIncidentMeterByHand() {
    // 2.5 lux is EV100 0; each doubling one more.
    assertThat(ExposureValues.ev100(2.5)).isEqualTo(0, within(1e-12));
    assertThat(ExposureValues.ev100(81_920)).isEqualTo(15, within(1e-12));
    assertThatThrownBy(() -> ExposureValues.ev100(0)).hasMessageContaining("positive illuminance");
    assertThatThrownBy(() -> ExposureValues.ev100(Double.NaN)).hasMessageContaining("NaN");
  }

  /**
   * Sunny 16 is EV100 15 in the table for frontal sun: within a third of a stop on an upright face
   * turned to a sun between 20 and 61 degrees. The table excludes the first and last two hours of
   * sun, which is about 20 degrees; above 61 an upright face gets less and less.
   */
  @Test
  void sunnySixteen() {
    double rule = tabulated("Typical scene in full");
    for (double altitude = 20; altitude <= 61; altitude += 0.5) {
      double lux = Daylight.of(altitude, SkyCondition.CLEAR).verticalLux(0);
      assertThat(ExposureValues.ev100(lux)).as("at %s", altitude).isEqualTo(rule, within(1 / 3.0));
    }
    double low = Daylight.of(10, SkyCondition.CLEAR).verticalLux(0);
    assertThat(ExposureValues.ev100(low)).isLessThan(rule - 1);
  }

  /** One stop: the table gives whole stops, and shade and clouds are of all kinds. */
  @ParameterizedTest
  @ValueSource(doubles = {20, 30, 40, 50, 60})
  void shadeAndCloudsAreTheTabulatedOnes(double altitudeDeg) {
    Daylight clear = Daylight.of(altitudeDeg, SkyCondition.CLEAR);
    Daylight overcast = Daylight.of(altitudeDeg, SkyCondition.OVERCAST);

    assertThat(ExposureValues.ev100(clear.shadeVerticalLux()))
        .isEqualTo(tabulated("Areas in open shade"), within(1.0));
    assertThat(ExposureValues.ev100(clear.shadeHorizontalLux()))
        .isEqualTo(tabulated("Areas in open shade"), within(1.0));
    assertThat(ExposureValues.ev100(overcast.horizontalLux()))
        .isEqualTo(tabulated("Typical scene, heavy overcast"), within(1.0));
  }

  /** The trade's rule: a stop less for side light, two for back light. */
  @ParameterizedTest
  @ValueSource(doubles = {30, 40, 50})
  void sideAndBackLightByTheRule(double altitudeDeg) {
    double front = looking(altitudeDeg, 180).inSunEv100();

    assertThat(looking(altitudeDeg, 90).inSunEv100()).isEqualTo(front - 1, within(0.5));
    assertThat(looking(altitudeDeg, -90).inSunEv100()).isEqualTo(front - 1, within(0.5));
    assertThat(looking(altitudeDeg, 0).inSunEv100()).isEqualTo(front - 2, within(0.5));
  }

  /** The same expectation on level ground as another program's, from Brown's charts. */
  @Test
  void agreesWithThePredictionsForRealFiles() {
    int compared = 0;
    for (Map<String, String> row : Reference.csv("exposure/exposure-from-files.csv")) {
      if (row.get("sun_alt_refracted_deg").isEmpty()) {
        continue;
      }
      double altitude = number(row, "sun_alt_refracted_deg");
      double lux = Daylight.of(altitude, SkyCondition.CLEAR).horizontalLux();
      // As in DaylightTest: a third of a stop down to -10 degrees; at night both are a constant.
      assertThat(ExposureValues.ev100(lux))
          .as(row.get("file"))
          .isEqualTo(number(row, "predicted_EV100_clear_sky_horizontal"), within(0.34));
      compared++;
    }
    assertThat(compared).isGreaterThan(20);
  }

  @Test
  void aFrontLitShotTellsAndABacklitOneDoesNot() {
    ExpectedExposure front = looking(30, 180);
    assertThat(front.suggest(15).verdict()).isEqualTo(SunVerdict.DIRECT_SUN);
    assertThat(front.suggest(11.5).verdict()).isEqualTo(SunVerdict.SHADE);
    assertThat(front.suggest(13.2).verdict()).isEqualTo(SunVerdict.CANNOT_TELL);
    assertThat(front.suggest(11.5).reason())
        .isEqualTo(
            "EV100 11.5; expected are 15.1 in direct sun and 11.4 in open shade, give or take 1:"
                + " too dark for direct sun, so shade, or clouds before the sun");
    assertThat(front.suggest(15).overShadeStops()).isEqualTo(3.6, within(0.05));

    ExpectedExposure back = looking(10, 0);
    for (double ev = 6; ev <= 16; ev += 0.25) {
      assertThat(back.suggest(ev).verdict()).as("EV100 %s", ev).isEqualTo(SunVerdict.CANNOT_TELL);
    }
  }

  @Test
  void whatFitsNeitherIsNotSuggested() {
    assertThat(looking(30, 180).suggest(7).reason()).endsWith("indoors or at a very dark subject");
    assertThat(looking(30, 180).suggest(19).reason()).endsWith("brighter than either");
    assertThat(looking(-3, 180).suggest(5).reason()).endsWith("the sun is down");
    assertThat(looking(30, 180).suggest(19).verdict()).isEqualTo(SunVerdict.CANNOT_TELL);
    assertThatThrownBy(() -> looking(30, 180).suggest(Double.NaN)).hasMessageContaining("NaN");
  }

  /** Brighter never turns a suggestion of sun into one of shade. */
  @Property
  void brighterIsNeverMoreShady(
      @ForAll @DoubleRange(min = 1, max = 89) double altitudeDeg,
      @ForAll @DoubleRange(min = -180, max = 180) double turnDeg,
      @ForAll @DoubleRange(min = 0, max = 18) double ev100,
      @ForAll @DoubleRange(min = 0, max = 5) double more) {
    ExpectedExposure expected = looking(altitudeDeg, turnDeg);
    if (expected.suggest(ev100).verdict() == SunVerdict.DIRECT_SUN) {
      assertThat(expected.suggest(ev100 + more).verdict()).isNotEqualTo(SunVerdict.SHADE);
    }
    if (expected.suggest(ev100 + more).verdict() == SunVerdict.SHADE) {
      assertThat(expected.suggest(ev100).verdict()).isNotEqualTo(SunVerdict.DIRECT_SUN);
    }
  }

  /**
   * On the sample photos no suggestion is wrong. They say nothing of most, which look towards the
   * sun. Nothing was fitted to them: the numbers of the class come from its stated parts.
   */
  @Test
  void suggestionsOnTheSamplePhotosAreRight() {
    Map<SunVerdict, Integer> counts = new EnumMap<>(SunVerdict.class);
    for (Map<String, String> row : Reference.read(Path.of("sample-photos/truth.csv"))) {
      double altitude = number(row, "sun_apparent_altitude_deg");
      ExpectedExposure expected =
          ExpectedExposure.of(
              new SunDirection(new Bearing(number(row, "sun_azimuth_deg")), altitude, altitude),
              new Bearing(number(row, "facing_true_deg")),
              SkyCondition.CLEAR);
      SunVerdict verdict = expected.suggest(number(row, "ev100")).verdict();
      counts.merge(verdict, 1, Integer::sum);
      if (verdict != SunVerdict.CANNOT_TELL) {
        assertThat(verdict == SunVerdict.DIRECT_SUN)
            .as(row.get("file"))
            .isEqualTo(row.get("sun_on_subject").equals("yes"));
      }
    }
    assertThat(counts)
        .containsEntry(SunVerdict.DIRECT_SUN, 6)
        .containsEntry(SunVerdict.SHADE, 7)
        .containsEntry(SunVerdict.CANNOT_TELL, 46);
  }
}
