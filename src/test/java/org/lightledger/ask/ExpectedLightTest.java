package org.lightledger.ask;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.OffsetDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.ExpectedExposure;
import org.lightledger.light.LightClass;
import org.lightledger.light.SkyCondition;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SunDirection;

class ExpectedLightTest {
  private static final Bearing FACING = Bearing.of(230);
  private static final OffsetDateTime AT = OffsetDateTime.parse("2026-12-15T17:00+01:00");

  private static Answer answer(LightClass light, double altitudeDeg, @Nullable Boolean direct) {
    Spot spot =
        new Spot(1, "Mill", null, new GeoPoint(41.95, -6.61), null, false, List.of(), "", "");
    return new Answer(
        spot,
        FACING,
        Answer.FacingBasis.KNOWN,
        AT,
        light,
        new SunDirection(Bearing.of(230), altitudeDeg, altitudeDeg),
        0,
        1,
        direct,
        null,
        null,
        null,
        new Answer.Window(AT, AT),
        List.of(),
        Answer.Tier.GEOMETRY,
        null,
        1,
        "");
  }

  private static ExpectedExposure exposure(double altitudeDeg, SkyCondition sky) {
    return ExpectedExposure.of(
        new SunDirection(Bearing.of(230), altitudeDeg, altitudeDeg), FACING, sky);
  }

  @Test
  void directSunCountsUnlessItIsKnownNotToReachTheSpot() {
    ExpectedLight sun = ExpectedLight.of(answer(LightClass.BACKLIT, 30, true), Sky.CLEAR);
    ExpectedLight shade = ExpectedLight.of(answer(LightClass.OPEN_SHADE, 30, false), Sky.CLEAR);
    ExpectedLight notKnown = ExpectedLight.of(answer(LightClass.BACKLIT, 30, null), Sky.CLEAR);

    assertThat(sun.ev100()).isEqualTo(exposure(30, SkyCondition.CLEAR).inSunEv100());
    assertThat(shade.ev100()).isEqualTo(exposure(30, SkyCondition.CLEAR).inShadeEv100());
    assertThat(sun.basis()).contains("direct sun from a clear sky");
    assertThat(shade.basis()).contains("open shade");
    assertThat(notKnown.ev100()).isEqualTo(sun.ev100());
    assertThat(notKnown.basis()).contains("which is not known");
  }

  @Test
  void underCloudsTheCloudsCount() {
    ExpectedLight clouds = ExpectedLight.of(answer(LightClass.OPEN_SHADE, 30, false), Sky.OVERCAST);

    assertThat(clouds.ev100())
        .isCloseTo(exposure(30, SkyCondition.OVERCAST).inShadeEv100(), within(1e-9));
    assertThat(clouds.basis()).contains("an overcast sky");
  }

  @Test
  void theSettingGivesTheExposureThatIsNamed() {
    ExpectedLight light = ExpectedLight.of(answer(LightClass.BACKLIT, 8, true), Sky.CLEAR);

    assertThat(light.setting()).isNotNull();
    double ev100 =
        Math.log(
                light.setting().fNumber()
                    * light.setting().fNumber()
                    / light.setting().exposureTimeS()
                    * 100
                    / light.setting().isoSpeed())
            / Math.log(2);
    assertThat(ev100).isCloseTo(light.ev100(), within(0.2));
    assertThat(light.words()).startsWith("EV100 ").contains(" s at f/2.8, ISO ");
  }

  @Test
  void theDarkHasNoSetting() {
    ExpectedLight dark = ExpectedLight.of(answer(LightClass.DARK, -30, false), Sky.CLEAR);

    assertThat(dark.setting()).isNull();
    assertThat(dark.words()).contains("too dark");
  }
}
