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
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineFlag;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunEphemeris;

class SkylineAskTest {
  private static final ZoneId MADRID = ZoneId.of("Europe/Madrid");
  private static final GeoPoint PLACE = new GeoPoint(41.93, -6.42);
  private static final LocalDate DAY = LocalDate.of(2026, 12, 12);
  private static final SunEphemeris SUN = new SpaEphemeris();
  private static final Set<SkylineFlag> NONE = EnumSet.noneOf(SkylineFlag.class);

  @Test
  void whatStandsInTheSunsWayTurnsBacklightIntoOpenShade() {
    Skyline wall = level(20.0, SkylineSource.BUILDING, NONE);

    assertThat(ask(LightClass.BACKLIT, wall).matches()).isEmpty();
    Answer shade = ask(LightClass.OPEN_SHADE, wall).matches().get(0);
    assertThat(shade.light()).isEqualTo(LightClass.OPEN_SHADE);
    assertThat(shade.directSun()).isFalse();
    assertThat(shade.directUntil()).isNull();
    assertThat(shade.tier()).isEqualTo(Answer.Tier.MODELLED);
    assertThat(shade.skylineDeg()).isCloseTo(20.0, within(1e-6));
    assertThat(shade.reason()).contains("is behind a building by", "plus or minus 0.4");
    assertThat(shade.reason()).doesNotContain("not known");
  }

  @Test
  void aClearSunIsToldWithItsMarginAndItsRealEnd() {
    Skyline ridge = level(2.0, SkylineSource.TERRAIN, NONE);

    Answer answer = ask(LightClass.BACKLIT, ridge).matches().get(0);
    assertThat(answer.directSun()).isTrue();
    assertThat(answer.tier()).isEqualTo(Answer.Tier.MODELLED);
    assertThat(answer.clearance().marginDeg())
        .isCloseTo(answer.sun().apparentAltitudeDeg() - 2.0, within(1e-6));
    assertThat(answer.marginDeg()).isLessThanOrEqualTo(answer.clearance().marginDeg());
    assertThat(SUN.direction(answer.directUntil().toInstant(), PLACE).apparentAltitudeDeg())
        .isCloseTo(2.0, within(0.001));
    assertThat(answer.window().to()).isEqualTo(answer.directUntil());
    assertThat(answer.reason()).contains("clears the terrain by", "direct sun until");
  }

  @Test
  void aLowerBoundLeavesTheSunNotKnown() {
    Skyline edge = level(2.0, SkylineSource.TERRAIN, EnumSet.of(SkylineFlag.LEFT_KNOWN_ELEVATION));

    Answer answer = ask(LightClass.BACKLIT, edge).matches().get(0);
    assertThat(answer.directSun()).isNull();
    assertThat(answer.directUntil()).isNull();
    assertThat(answer.tier()).isEqualTo(Answer.Tier.GEOMETRY);
    assertThat(answer.reason())
        .contains("as far as is known", "what may hide the sun is not known");
  }

  @Test
  void openShadeIsNotKnownWhereTheSkylineIsNot() {
    SkylineBuilder east = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS / 2; step++) {
      east.set(step, 30.0, 0.4, SkylineSource.BUILDING, NONE);
    }

    Answers answers = ask(LightClass.OPEN_SHADE, east.build());
    assertThat(answers.matches()).isEmpty();
    assertThat(answers.notKnown()).hasSize(1);
    assertThat(ask(LightClass.OPEN_SHADE, level(1.0, SkylineSource.TERRAIN, NONE)).notKnown())
        .as("a sun that is known to be clear is an answer")
        .isEmpty();
  }

  /** Against a scan at every second, under skylines of random walls and gaps. */
  @Test
  void windowsEndWhereAScanBySecondsFindsThem() {
    Random random = new Random(20261125);
    WindowFinder finder = new WindowFinder(SUN);
    for (int i = 0; i < 40; i++) {
      Skyline skyline = walls(random);
      Bearing facing = new Bearing(random.nextInt(360));
      WindowFinder.View view = new WindowFinder.View(PLACE, facing, skyline, MADRID, Sky.CLEAR);
      Instant moment =
          DAY.plusDays(random.nextInt(365))
              .atTime(9 + random.nextInt(9), random.nextInt(60))
              .atZone(MADRID)
              .toInstant();

      Answer.Window window = finder.around(moment, view);

      assertThat(window.to().toEpochSecond())
          .isCloseTo(scan(moment, view, 1).getEpochSecond(), within(1L));
      assertThat(window.from().toEpochSecond())
          .isCloseTo(scan(moment, view, -1).getEpochSecond(), within(1L));
    }
  }

  private static Instant scan(Instant moment, WindowFinder.View view, int stepS) {
    LightClass light = classAt(moment, view);
    LocalDate day = moment.atZone(MADRID).toLocalDate();
    Instant at = moment;
    while (at.plusSeconds(stepS).atZone(MADRID).toLocalDate().equals(day)
        && classAt(at.plusSeconds(stepS), view) == light) {
      at = at.plusSeconds(stepS);
    }
    return at;
  }

  private static LightClass classAt(Instant instant, WindowFinder.View view) {
    return SpotLight.classOf(SUN.direction(instant, PLACE), view.facing(), view.skyline());
  }

  private static Skyline walls(Random random) {
    SkylineBuilder builder = new SkylineBuilder();
    double altitudeDeg = 10.0;
    for (int step = 0; step < Skyline.STEPS; step++) {
      if (random.nextInt(3) == 0) {
        altitudeDeg = random.nextInt(50);
      }
      builder.set(step, altitudeDeg, 0.4, SkylineSource.BUILDING, NONE);
    }
    return builder.build();
  }

  private static Skyline level(double altitudeDeg, SkylineSource source, Set<SkylineFlag> flags) {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      builder.set(step, altitudeDeg, 0.4, source, flags);
    }
    return builder.build();
  }

  private static Answers ask(LightClass light, Skyline skyline) {
    LocalTime hour = LocalTime.of(17, 0);
    Spot spot =
        new Spot(
            1,
            "spot",
            null,
            PLACE,
            MADRID,
            false,
            Stream.of(235.0)
                .map(deg -> new Facing(new Bearing(deg), 15, Facing.Origin.SHOTS, 3))
                .toList(),
            "",
            "");
    return new Asker(SUN)
        .ask(
            new Question(Set.of(light), DAY, DAY, new TimeOfDay.Clock(hour, hour), null),
            new AskerTest.FixedStock(List.of(spot), Map.of(), Map.of(1L, skyline)),
            100);
  }
}
