package org.lightledger.scenario.render;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.scenario.Point;
import org.lightledger.scenario.River;

/** The renderer's light against what optics and published daylight say, in small scenes. */
class LightTest {
  private static final Season SEASON = Season.on(LocalDate.of(2026, 6, 20));
  private static final GroundMap NOWHERE =
      new GroundMap(
          new River("none", List.of(new Point(-900, 900), new Point(-890, 900)), 1),
          List.of(),
          List.of());

  private static Weather weather(Weather.Kind kind) {
    return new Weather(kind, 0, 1e6, 0, 1);
  }

  private static Placement plane() {
    Mesh mesh = new Mesh();
    double r = 400;
    mesh.quad(
        Surface.PLAIN,
        new Vec3(-r, -r, 0),
        new Vec3(r, -r, 0),
        new Vec3(r, r, 0),
        new Vec3(-r, r, 0));
    return Placement.fixed(mesh.freeze());
  }

  private static Film film(
      List<Placement> placements, Sky sky, Outfit outfit, Camera camera, int rays) {
    return new Tracer(new Scene(placements), sky, SEASON, NOWHERE, outfit).draw(camera, rays, 7);
  }

  @ParameterizedTest
  @CsvSource({"CLEAR, 60", "CLEAR, 25", "CLEAR, 8", "HAZY, 30", "OVERCAST, 30"})
  void levelGroundGivesBackTheShareOfDaylightThatItShould(Weather.Kind kind, double altitudeDeg) {
    Sky sky = new Sky(180, altitudeDeg, weather(kind));
    Camera camera = new Camera(new Vec3(0, 0, 3), 90, -40, 50, 16, 4, 24, 16);
    Film film = film(List.of(plane()), sky, Outfit.CREAM, camera, 64);
    float[] light = film.radiance(film.falling);
    double mean = 0;
    for (int i = 0; i < film.depth.length; i++) {
      mean += new Vec3(light[3 * i], light[3 * i + 1], light[3 * i + 2]).luminance();
    }
    mean /= film.depth.length;
    Daylight daylight =
        switch (kind) {
          case CLEAR -> Daylight.clear(altitudeDeg);
          case HAZY -> Daylight.hazy(altitudeDeg);
          case OVERCAST -> Daylight.overcast(altitudeDeg);
        };
    double lux = daylight.beamLux() * Math.sin(Math.toRadians(altitudeDeg)) + daylight.skyLux();
    double expected = 0.5 * lux / Math.PI;
    // 3 %: the sky's rays are random, some 25,000 of them, and the sky's table is interpolated.
    assertThat(mean).isCloseTo(expected, within(0.03 * expected));
  }

  @ParameterizedTest
  @ValueSource(doubles = {1, 5, 12, 30, 60})
  void sunAndSkyTogetherAreThePublishedTotal(double altitudeDeg) {
    Daylight daylight = Daylight.clear(altitudeDeg);
    double total = daylight.beamLux() * Math.sin(Math.toRadians(altitudeDeg)) + daylight.skyLux();
    assertThat(total).isCloseTo(Daylight.totalLux(altitudeDeg), within(1e-6 * total));
  }

  @Test
  void sunnySixteenComesOut() {
    // An incident meter (C = 250, ISO 2720) turned to a sun at 55 degrees against the rule's
    // f/16 at 1/100 s, ISO 100. The rule is known to be good to about two thirds of a stop.
    Daylight noon = Daylight.clear(55);
    double lux = noon.beamLux() + noon.skyLux() * 0.5;
    double metered = Math.log(lux / 2.5) / Math.log(2);
    assertThat(metered).isCloseTo(new Exposure(100, 16, 100).ev100(), within(0.75));
  }

  @Test
  void aMeteredMeanBecomesAMiddleGrey() {
    ToneCurve tone = new ToneCurve(12, Vec3.grey(1), 0.3);
    double mean = Math.pow(2, 12) / 8;
    int green = tone.pixel(mean, mean, mean) >> 8 & 0xFF;
    assertThat(green).isBetween(108, 128);
  }

  @ParameterizedTest
  @CsvSource({"63, 12", "160, 25", "233.4, 9", "285.2, 18", "12.5, 40"})
  void thePolesShadowPointsAwayFromTheSun(double azimuthDeg, double altitudeDeg) {
    double poleM = 1.0;
    Mesh pole = new Mesh();
    pole.box(Surface.PLAIN, -0.01, -0.01, 0, 0.01, 0.01, poleM);
    Sky sky = new Sky(azimuthDeg, altitudeDeg, weather(Weather.Kind.CLEAR));
    double lengthM = poleM / Math.tan(Math.toRadians(altitudeDeg));
    Vec3 tip = Vec3.towards(azimuthDeg + 180, 0).times(lengthM);
    Vec3 above = tip.times(0.5).plus(new Vec3(0, -2.0, 7));
    Camera camera = new Camera(above, 0, -74, 35, 16, 7, 480, 480);
    Film film =
        film(List.of(plane(), Placement.fixed(pole.freeze())), sky, Outfit.CREAM, camera, 8);
    double sunlit = 0.5 * sky.beam().luminance() * sky.sun().z() / Math.PI;
    double alongAcross = 0;
    double alongAlong = 0;
    Vec3 way = Vec3.towards(azimuthDeg + 180, 0);
    Vec3 side = Vec3.towards(azimuthDeg + 270, 0);
    int dark = 0;
    for (int y = 0; y < film.height; y++) {
      for (int x = 0; x < film.width; x++) {
        int i = 3 * (y * film.width + x);
        Vec3 seen = new Vec3(film.direct[i], film.direct[i + 1], film.direct[i + 2]);
        Vec3 view = camera.direction(x + 0.5, y + 0.5);
        Vec3 ground = above.plus(view.times(-above.z() / view.z()));
        double along = ground.dot(way);
        boolean offThePole = ground.length() > 0.25 * lengthM && along > 0;
        if (seen.luminance() < 0.5 * sunlit && offThePole && ground.length() < 1.5 * lengthM) {
          alongAcross += along * ground.dot(side);
          alongAlong += along * along;
          dark++;
        }
      }
    }
    assertThat(dark).isGreaterThan(20);
    double offDeg = Math.toDegrees(Math.atan2(alongAcross, alongAlong));
    assertThat(offDeg).isCloseTo(0, within(0.5));
  }

  @ParameterizedTest
  @ValueSource(doubles = {-90, -50, 50, 90})
  void theFiguresSideTowardsTheSunIsTheBrighter(double sunFromFacingDeg) {
    double facingDeg = 30;
    Sky sky = new Sky(facingDeg + 180 + sunFromFacingDeg + 360, 25, weather(Weather.Kind.CLEAR));
    Camera camera = new Camera(new Vec3(0, 0, 1.2), facingDeg, -2, 50, 8, 6, 160, 240);
    Vec3 stands = Vec3.towards(facingDeg, 0).times(6);
    List<Placement> scene = new ArrayList<>(List.of(plane()));
    scene.add(
        new Placement(
            FigureShape.shape(Outfit.Cut.LONG_DRESS, 0.9),
            stands,
            Math.toRadians(-facingDeg),
            1,
            0.5));
    Film film = film(scene, sky, Outfit.CREAM, camera, 8);
    float[] light = film.radiance(film.falling);
    double left = 0;
    double right = 0;
    for (int y = 0; y < film.height; y++) {
      for (int x = 0; x < film.width; x++) {
        int i = y * film.width + x;
        if (film.figure[i] > 0.9) {
          double value = new Vec3(light[3 * i], light[3 * i + 1], light[3 * i + 2]).luminance();
          if (x < film.width / 2) {
            left += value;
          } else {
            right += value;
          }
        }
      }
    }
    // The sun stands behind the camera's back, turned by the parameter: clockwise is to its left.
    if (sunFromFacingDeg > 0) {
      assertThat(left).isGreaterThan(1.3 * right);
    } else {
      assertThat(right).isGreaterThan(1.3 * left);
    }
  }

  @Test
  void theSameSeedDrawsTheSamePicture() {
    Sky sky = new Sky(200, 30, weather(Weather.Kind.CLEAR));
    Camera camera = new Camera(new Vec3(0, 0, 2), 20, -10, 35, 4, 5, 30, 20);
    Film one = film(List.of(plane()), sky, Outfit.ROSE, camera, 4);
    Film two = film(List.of(plane()), sky, Outfit.ROSE, camera, 4);
    assertThat(one.falling).containsExactly(two.falling);
    assertThat(one.direct).containsExactly(two.direct);
  }
}
