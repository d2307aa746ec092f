package org.lightledger.ask;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.session.planner.SpotSunlight;
import org.lightledger.session.planner.SunlightMaker;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineFlag;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunCurve;

/** The planner's light is the light of the answers. */
class PlannedLightTest {
  private static final ZoneId MADRID = ZoneId.of("Europe/Madrid");
  private static final GeoPoint PLACE = new GeoPoint(41.93, -6.42);
  private static final SpaEphemeris SUN = new SpaEphemeris();

  @Test
  void aMinuteHasTheLightTheSunAndTheEvidenceOfTheAnswer() {
    Random random = new Random(5);
    int scouted = 0;
    int withoutSun = 0;
    for (int i = 0; i < 60; i++) {
      LocalDate day = LocalDate.of(2026, 1, 1).plusDays(random.nextInt(365));
      LocalTime time = LocalTime.of(6 + random.nextInt(15), random.nextInt(60));
      Instant moment = day.atTime(time).atZone(MADRID).toInstant();
      Spot spot = SkylineAskTest.spot(new Bearing(random.nextInt(360)));
      Skyline skyline = i % 4 == 0 ? null : walls(random);
      Sky sky = i % 7 == 0 ? Sky.OVERCAST : Sky.CLEAR;
      List<Observation> seen =
          List.of(
              new Observation(
                  9,
                  moment.atZone(MADRID).toOffsetDateTime(),
                  SUN.direction(moment.plusSeconds(60L * random.nextInt(120)), PLACE),
                  spot.facings().get(0).bearing(),
                  null));

      SpotSunlight light =
          new SunlightMaker(SUN, moment.minusSeconds(150), 5).of(spot, skyline, seen, sky);
      Answer answer = ask(spot, skyline, seen, day, time, sky);

      SpotSunlight.Minute minute = light.alongFacings().get(0).minutes().get(2);
      assertThat(minute.light()).isEqualTo(answer.light());
      assertThat(minute.tier()).isEqualTo(answer.tier());
      assertThat(minute.marginDeg())
          .as("both follow the ephemeris within the bound of the curve, in two angles")
          .isCloseTo(answer.marginDeg(), within(4 * SunCurve.ERROR_BOUND_DEG));
      assertThat(light.direct().get(2)).isEqualTo(answer.directSun());
      scouted += answer.tier() == Answer.Tier.SCOUTED ? 1 : 0;
      withoutSun += answer.light() == LightClass.OPEN_SHADE ? 1 : 0;
    }
    assertThat(scouted).isBetween(5, 55);
    assertThat(withoutSun).isBetween(5, 55);
  }

  static Answer ask(
      Spot spot, Skyline skyline, List<Observation> seen, LocalDate day, LocalTime time, Sky sky) {
    Terms terms =
        new Terms(
            sky,
            Terms.SunWanted.EITHER,
            Terms.NONE.weekdays(),
            Terms.NONE.atLeast(),
            Set.of(),
            null);
    return new Asker(SUN)
        .ask(
            new Question(
                EnumSet.allOf(LightClass.class),
                day,
                day,
                new TimeOfDay.Clock(time, time),
                null,
                terms),
            new AskerTest.FixedStock(
                List.of(spot), Map.of(1L, seen), skyline == null ? Map.of() : Map.of(1L, skyline)),
            1)
        .matches()
        .get(0);
  }

  private static Skyline walls(Random random) {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      if (step % 40 != 0 || random.nextBoolean()) {
        builder.set(
            step,
            10 + 20 * Math.sin(step / 40.0),
            0.4,
            SkylineSource.BUILDING,
            EnumSet.noneOf(SkylineFlag.class));
      }
    }
    return builder.build();
  }
}
