package org.lightledger.ask;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineFlag;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Observation;
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

  /** The sun passes between two roofs for some minutes, and later stands free for longer. */
  @Test
  void ofTwoWindowsTheOneWithTheStrongerEvidenceThenTheLongerOneIsTold() {
    Skyline roofs = roofs();
    Bearing facing = new Bearing(229);
    List<Answer.Window> windows =
        SpotWindows.of(SUN, PLACE, MADRID, facing, roofs, Set.of(LightClass.BACKLIT), DAY, DAY);
    assertThat(windows).as("a short one and a long one").hasSize(2);
    Answer.Window shorter = windows.get(0);
    Answer.Window longer = windows.get(1);

    Answer longest = between(roofs, facing, List.of());
    assertThat(longest.window()).matches(window -> near(window, longer));
    assertThat(longest.others())
        .singleElement()
        .matches(other -> other.light() == LightClass.BACKLIT && near(other.window(), shorter));
    assertThat(OtherWindows.text(longest.others(), LightClass.BACKLIT))
        .matches("also 15:[0-9]{2} to 1[56]:[0-9]{2}");
    assertThat(longest.at().toInstant())
        .isBetween(longer.from().toInstant(), longer.to().toInstant());

    Answer seen = between(roofs, facing, List.of(shot(shorter, facing)));
    assertThat(seen.tier()).isEqualTo(Answer.Tier.SCOUTED);
    assertThat(seen.window()).matches(window -> near(window, shorter));
    assertThat(seen.others()).singleElement().matches(other -> near(other.window(), longer));
    assertThat(between(roofs, facing, List.of(shot(longer, facing))).window())
        .matches(window -> near(window, longer));
  }

  /** A picture in the sun is no evidence of the shade that follows, nor of an overcast sky. */
  @Test
  void aShotInTheSunShowsNothingOfTheShadeThatFollows() {
    Skyline roofs = roofs();
    Bearing facing = new Bearing(229);
    List<Answer.Window> sunny =
        SpotWindows.of(SUN, PLACE, MADRID, facing, roofs, Set.of(LightClass.BACKLIT), DAY, DAY);
    LocalTime shade = sunny.get(0).to().toLocalTime().plusMinutes(2);
    Observation inSun = shot(sunny.get(0), facing);
    Observation inShade =
        new Observation(
            8,
            inSun.at(),
            SUN.direction(DAY.atTime(shade).atZone(MADRID).toInstant(), PLACE),
            facing,
            null);

    Answer bySun = atTime(roofs, facing, List.of(inSun), shade, Sky.CLEAR);
    assertThat(bySun.light()).isEqualTo(LightClass.OPEN_SHADE);
    assertThat(bySun.nearestShot().sunGapDeg()).isLessThan(Answer.LIKE_LIGHT_GAP_DEG);
    assertThat(bySun.tier()).isEqualTo(Answer.Tier.MODELLED);
    assertThat(bySun.reason()).contains("but looks another way or was taken in another light");
    Answer both = atTime(roofs, facing, List.of(inSun, inShade), shade, Sky.CLEAR);
    assertThat(both.tier()).isEqualTo(Answer.Tier.SCOUTED);
    assertThat(both.nearestShot().shotId()).isEqualTo(8);

    LocalTime sun = sunny.get(0).from().toLocalTime().plusMinutes(1);
    assertThat(atTime(roofs, facing, List.of(inSun), sun, Sky.CLEAR).tier())
        .isEqualTo(Answer.Tier.SCOUTED);
    assertThat(atTime(roofs, facing, List.of(inSun), sun, Sky.OVERCAST).tier())
        .isNotEqualTo(Answer.Tier.SCOUTED);
  }

  private static Answer atTime(
      Skyline skyline, Bearing facing, List<Observation> seen, LocalTime time, Sky sky) {
    return PlannedLightTest.ask(spot(facing), skyline, seen, DAY, time, sky);
  }

  /** A window that is too short is no answer, and does not keep another from being one. */
  @Test
  void onlyAWindowThatLastsIsTold() {
    Skyline roofs = roofs();
    Bearing facing = new Bearing(229);
    Answer.Window shorter =
        SpotWindows.of(SUN, PLACE, MADRID, facing, roofs, Set.of(LightClass.BACKLIT), DAY, DAY)
            .get(0);
    Terms lasting =
        new Terms(
            Sky.CLEAR,
            Terms.SunWanted.EITHER,
            Terms.NONE.weekdays(),
            Duration.ofMinutes(30),
            Set.of(),
            null);

    Answers answers =
        between(Set.of(LightClass.BACKLIT), lasting, roofs, facing, List.of(shot(shorter, facing)));
    assertThat(answers.matches().get(0).window()).matches(window -> !near(window, shorter));
    assertThat(answers.matches().get(0).others()).isEmpty();
  }

  /** Against all windows of the day that the asked moments can not miss. */
  @Test
  void noWindowIsLongerWithinTheAskedHoursAndNoneIsLeftOut() {
    Random random = new Random(20261212);
    Set<LightClass> wanted = EnumSet.of(LightClass.BACKLIT, LightClass.RIM);
    int several = 0;
    for (int i = 0; i < 60; i++) {
      Skyline skyline = walls(random);
      Bearing facing = new Bearing(180 + random.nextInt(90));
      List<Answer.Other> sure = new ArrayList<>();
      for (LightClass light : wanted) {
        SpotWindows.of(SUN, PLACE, MADRID, facing, skyline, Set.of(light), DAY, DAY).stream()
            .filter(window -> askedMinutes(window) > 5)
            .forEach(window -> sure.add(new Answer.Other(light, window)));
      }
      List<Answer> matches = between(wanted, Terms.NONE, skyline, facing, List.of()).matches();
      if (sure.isEmpty()) {
        continue;
      }
      Answer answer = matches.get(0);
      double shown = askedMinutes(answer.window());
      List<Answer.Other> told = new ArrayList<>(answer.others());
      told.add(new Answer.Other(answer.light(), answer.window()));
      several += told.size() > 1 ? 1 : 0;
      assertThat(told).doesNotHaveDuplicates();
      for (Answer.Other window : sure) {
        assertThat(askedMinutes(window.window())).as("case %d", i).isLessThan(shown + 1);
        assertThat(told)
            .as("case %d", i)
            .anyMatch(one -> one.light() == window.light() && near(one.window(), window.window()));
      }
    }
    assertThat(several).isGreaterThan(20);
  }

  /** Two suns on curves of different length are a tenth of a second apart. */
  private static boolean near(Answer.Window one, Answer.Window other) {
    return Duration.between(one.from(), other.from()).abs().toMillis() < 1000
        && Duration.between(one.to(), other.to()).abs().toMillis() < 1000;
  }

  private static double askedMinutes(Answer.Window window) {
    Instant from = DAY.atTime(15, 30).atZone(MADRID).toInstant();
    Instant to = DAY.atTime(18, 0).atZone(MADRID).toInstant();
    Instant first = window.from().toInstant().isAfter(from) ? window.from().toInstant() : from;
    Instant last = window.to().toInstant().isBefore(to) ? window.to().toInstant() : to;
    return Duration.between(first, last).toMillis() / 60_000.0;
  }

  private static Observation shot(Answer.Window window, Bearing facing) {
    Instant middle =
        window.from().toInstant().plus(Duration.between(window.from(), window.to()).dividedBy(2));
    return new Observation(
        10, middle.atZone(MADRID).toOffsetDateTime(), SUN.direction(middle, PLACE), facing, null);
  }

  /** Free of 30 degrees of roof at azimuths from 212 to 215 and from 230 on. */
  private static Skyline roofs() {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      double azimuthDeg = Skyline.azimuthDeg(step);
      boolean gap = azimuthDeg >= 212 && azimuthDeg <= 215 || azimuthDeg >= 230;
      builder.set(step, gap ? 0.0 : 30.0, 0.4, SkylineSource.BUILDING, NONE);
    }
    return builder.build();
  }

  private static Answer between(Skyline skyline, Bearing facing, List<Observation> seen) {
    return between(Set.of(LightClass.BACKLIT), Terms.NONE, skyline, facing, seen).matches().get(0);
  }

  private static Answers between(
      Set<LightClass> lights,
      Terms terms,
      Skyline skyline,
      Bearing facing,
      List<Observation> seen) {
    return new Asker(SUN)
        .ask(
            new Question(
                lights,
                DAY,
                DAY,
                new TimeOfDay.Clock(LocalTime.of(15, 30), LocalTime.of(18, 0)),
                null,
                terms),
            new AskerTest.FixedStock(List.of(spot(facing)), Map.of(1L, seen), Map.of(1L, skyline)),
            100);
  }

  /** A spot that looks one way, as its shots say. */
  static Spot spot(Bearing facing) {
    return new Spot(
        1,
        "spot",
        null,
        PLACE,
        MADRID,
        false,
        List.of(new Facing(facing, 15, Facing.Origin.SHOTS, 3)),
        "",
        "");
  }

  private static Answers ask(LightClass light, Skyline skyline) {
    LocalTime hour = LocalTime.of(17, 0);
    Spot spot = spot(new Bearing(235));
    return new Asker(SUN)
        .ask(
            new Question(Set.of(light), DAY, DAY, new TimeOfDay.Clock(hour, hour), null),
            new AskerTest.FixedStock(List.of(spot), Map.of(), Map.of(1L, skyline)),
            100);
  }
}
