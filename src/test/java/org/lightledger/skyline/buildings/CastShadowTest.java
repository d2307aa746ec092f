package org.lightledger.skyline.buildings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.skyline.LineOfSight;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunDirection;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Location;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.Polygonal;

class CastShadowTest {
  private static final GeoPoint PLACE = new GeoPoint(48.0, 16.0);
  private static final GeometryFactory FACTORY = new GeometryFactory();
  private static final LocalPlane PLANE = new LocalPlane(PLACE);

  /** Some 1500 by 2200 metres. */
  private static final Envelope BOX = new Envelope(15.99, 16.01, 47.99, 48.01);

  /** The plane at the eye of a horizon, so that both look at the same. */
  private static final ShadowOptions AT_EYE =
      new ShadowOptions(LineOfSight.EYE_HEIGHT_M, LineOfSight.STANDARD, 2000.0);

  private static GeoPoint at(double eastM, double northM) {
    return Geodesy.destination(
        PLACE, Bearing.of(Math.toDegrees(Math.atan2(eastM, northM))), Math.hypot(eastM, northM));
  }

  private static LinearRing ring(double... eastNorth) {
    Coordinate[] corners = new Coordinate[eastNorth.length / 2 + 1];
    for (int i = 0; i < corners.length; i++) {
      int from = 2 * i % eastNorth.length;
      GeoPoint corner = at(eastNorth[from], eastNorth[from + 1]);
      corners[i] = new Coordinate(corner.longitudeDeg(), corner.latitudeDeg());
    }
    return FACTORY.createLinearRing(corners);
  }

  private static Obstruction building(double heightM, LinearRing outer, LinearRing... holes) {
    return new Obstruction(
        "b",
        ObstructionKind.BUILDING,
        FACTORY.createPolygon(outer, holes),
        heightM,
        0.0,
        HeightSource.GIVEN,
        null);
  }

  private static LinearRing box(double west, double south, double east, double north) {
    return ring(west, south, east, south, east, north, west, north);
  }

  private static SunDirection sun(double azimuthDeg, double altitudeDeg) {
    return new SunDirection(Bearing.of(azimuthDeg), altitudeDeg, altitudeDeg);
  }

  private static CastShadow cast(SunDirection sun, ShadowOptions options, Obstruction... all) {
    return CastShadow.within(Obstructions.of(List.of(all), null), BOX, sun, options).orElseThrow();
  }

  /** Square metres, by the plane. */
  private static double areaM2(Geometry degrees) {
    double scale = PLANE.longitudeDeg(1.0) * PLANE.latitudeDeg(1.0);
    return degrees.getArea() / scale;
  }

  private static boolean shaded(CastShadow shadow, double eastM, double northM) {
    GeoPoint place = at(eastM, northM);
    return new IndexedPointInAreaLocator(shadow.area())
            .locate(new Coordinate(place.longitudeDeg(), place.latitudeDeg()))
        == Location.INTERIOR;
  }

  /**
   * A pole 10 metres high and 0.2 wide, the sun in the south at 45 degrees: its shadow ends 10
   * metres north of its north side. A centimetre covers the plane and the curved earth.
   */
  @Test
  void aPoleAtFortyFiveDegrees() {
    CastShadow shadow =
        cast(sun(180, 45), ShadowOptions.STANDARD, building(10, box(-0.1, -0.1, 0.1, 0.1)));

    Envelope found = shadow.area().getEnvelopeInternal();
    assertThat(PLANE.northM(16.0, found.getMaxY())).isEqualTo(10.1, within(0.01));
    assertThat(PLANE.northM(16.0, found.getMinY())).isEqualTo(-0.1, within(0.01));
    assertThat(PLANE.eastM(found.getMaxX(), 48.0)).isEqualTo(0.1, within(0.01));
    assertThat(areaM2(shadow.area())).isEqualTo(0.2 * 10.2, within(0.01));
    assertThat(shadow.obstructions()).isEqualTo(1);
    assertThat(shadow.cut()).isFalse();
  }

  /**
   * By hand: a house 20 by 10, 12 high, the sun at azimuth 225 and atan(12 / 20) degrees: the
   * shadow runs 20 metres to the north-east, 14.142 each way. Area: 200 and (20 + 10) * 14.142.
   */
  @Test
  void aHouseAgainstHandComputedCorners() {
    CastShadow shadow =
        cast(
            sun(225, Math.toDegrees(Math.atan(12.0 / 20))),
            ShadowOptions.STANDARD,
            building(12, box(0, 0, 20, 10)));

    assertThat(areaM2(shadow.area())).isEqualTo(200 + 30 * 14.142, within(0.5));
    assertThat(shadow.area().getNumPoints()).isEqualTo(7);
    assertThat(shaded(shadow, 34.0, 24.0)).isTrue();
    assertThat(shaded(shadow, 34.2, 24.2)).isFalse();
    assertThat(shaded(shadow, 10, 5)).as("the house itself").isTrue();
    assertThat(shaded(shadow, -0.1, 5)).isFalse();
    assertThat(shaded(shadow, 2, 14)).as("left of the shadow's side").isFalse();
  }

  /** A courtyard of 20 by 20: of its ground, 5 metres from the sunward wall lie in shadow. */
  @Test
  void sunReachesIntoACourtyard() {
    Obstruction block = building(5, box(-20, -20, 20, 20), box(-10, -10, 10, 10));
    CastShadow shadow = cast(sun(180, 45), ShadowOptions.STANDARD, block);

    assertThat(shaded(shadow, 0, -5.1)).isTrue();
    assertThat(shaded(shadow, 0, -4.9)).isFalse();
    assertThat(shaded(shadow, 0, 9.9)).isFalse();
    assertThat(areaM2(shadow.area())).isEqualTo(40 * 45 - 20 * 15, within(1.0));
    assertThat(((Polygon) shadow.area()).getNumInteriorRing()).isEqualTo(1);
  }

  /** Two wings around a court that opens away from the sun. */
  @Test
  void aConcaveHouse() {
    Obstruction house = building(4, ring(0, 0, 30, 0, 30, 20, 20, 20, 20, 8, 10, 8, 10, 20, 0, 20));
    CastShadow shadow = cast(sun(180, 45), ShadowOptions.STANDARD, house);

    // The ground of the house and four metres behind each of its three north sides.
    assertThat(areaM2(shadow.area())).isEqualTo(30 * 20 - 10 * 12 + 30 * 4, within(0.5));
    assertThat(shaded(shadow, 15, 11.9)).isTrue();
    assertThat(shaded(shadow, 15, 12.1)).isFalse();
  }

  /**
   * The law of this class: a place lies in a shadow exactly when the horizon from there has the
   * obstruction above the sun. Random outlines, convex, concave and with holes, random suns. Places
   * nearer to a shadow's edge than 5 centimetres are left out: the two planes differ by some
   * millimetres in azimuth over the reach of a shadow.
   */
  @ParameterizedTest
  @CsvSource({"1, false, false", "2, true, false", "3, false, true", "4, true, true"})
  void agreesWithTheHorizonOfEveryPlace(long seed, boolean concave, boolean hole) {
    Random random = new Random(seed);
    int inShadow = 0;
    int inSun = 0;
    for (int i = 0; i < 60; i++) {
      Obstruction house = randomHouse(random, concave, hole);
      Obstructions obstructions = Obstructions.of(List.of(house), null);
      SunDirection sun = sun(random.nextInt(720) / 2.0, 3 + random.nextDouble() * 70);
      CastShadow shadow = CastShadow.within(obstructions, BOX, sun, AT_EYE).orElseThrow();
      assertThat(shadow.area().isValid()).isTrue();
      assertThat(shadow.area()).isInstanceOf(Polygonal.class);
      Geometry edge = shadow.area().getBoundary();
      IndexedPointInAreaLocator locator = new IndexedPointInAreaLocator(shadow.area());
      double turn = Math.toRadians(sun.azimuth().trueDeg());
      double shadowM =
          Math.min(250, house.heightM() / Math.tan(Math.toRadians(sun.apparentAltitudeDeg())));
      for (int p = 0; p < 40; p++) {
        double behindM = random.nextDouble() * 1.3 * shadowM - 10;
        double east = random.nextDouble() * 60 - 30 - behindM * Math.sin(turn);
        double north = random.nextDouble() * 60 - 30 - behindM * Math.cos(turn);
        GeoPoint place = at(east, north);
        Coordinate corner = new Coordinate(place.longitudeDeg(), place.latitudeDeg());
        if (edge.isWithinDistance(FACTORY.createPoint(corner), PLANE.longitudeDeg(0.05))) {
          continue;
        }
        BuildingHorizon horizon = obstructions.around(place, BuildingOptions.STANDARD);
        // The sun is higher towards it by the curve of the earth.
        double sunDeg =
            sun.apparentAltitudeDeg()
                + Math.toDegrees((east * Math.sin(turn) + north * Math.cos(turn)) / 6_371_009.0);
        int step = (int) (sun.azimuth().trueDeg() * 2);
        boolean hidden = !horizon.inside().isEmpty() || horizon.altitudeDeg(step) > sunDeg;
        boolean inArea = locator.locate(corner) == Location.INTERIOR;
        assertThat(inArea).as("house %s, sun %s, %s %s", house, sun, east, north).isEqualTo(hidden);
        inShadow += hidden && horizon.inside().isEmpty() ? 1 : 0;
        inSun += hidden ? 0 : 1;
      }
    }
    assertThat(inShadow).isGreaterThan(300);
    assertThat(inSun).isGreaterThan(300);
  }

  private static Obstruction randomHouse(Random random, boolean concave, boolean hole) {
    int corners = 3 + random.nextInt(8);
    double[] outer = new double[2 * corners];
    double[] inner = new double[2 * corners];
    boolean reversed = random.nextBoolean();
    for (int c = 0; c < corners; c++) {
      double turn = 2 * Math.PI * c / corners * (reversed ? -1 : 1);
      double radius = concave ? 8 + 22 * random.nextDouble() : 25;
      outer[2 * c] = radius * Math.sin(turn);
      outer[2 * c + 1] = radius * Math.cos(turn);
      inner[2 * c] = 0.5 * radius * Math.sin(turn);
      inner[2 * c + 1] = 0.5 * radius * Math.cos(turn);
    }
    LinearRing[] holes = hole ? new LinearRing[] {ring(inner)} : new LinearRing[0];
    return building(2 + random.nextDouble() * 20, ring(outer), holes);
  }

  /**
   * Many together shade what each of them shades. An edge of 50 metres that is straight in metres
   * and one that is straight in degrees part by 0.05 millimetres; there are 10 kilometres of them.
   */
  @Test
  void theWholeIsTheSumOfItsParts() {
    Random random = new Random(11);
    List<Obstruction> town = new ArrayList<>();
    for (int i = 0; i < 80; i++) {
      double east = random.nextDouble() * 300 - 150;
      double north = random.nextDouble() * 300 - 150;
      town.add(building(3 + random.nextDouble() * 15, box(east, north, east + 12, north + 9)));
    }
    SunDirection sun = sun(143, 18);
    CastShadow whole = cast(sun, ShadowOptions.STANDARD, town.toArray(Obstruction[]::new));
    Geometry sum = FACTORY.createPolygon();
    for (Obstruction house : town) {
      sum = sum.union(cast(sun, ShadowOptions.STANDARD, house).area());
    }
    assertThat(whole.area().isValid()).isTrue();
    assertThat(areaM2(whole.area().symDifference(sum))).isEqualTo(0, within(0.5));
  }

  /** A tower outside the box reaches into it; nothing reaches out of it. */
  @Test
  void whatStandsOutsideShadesTheBox() {
    Obstruction tower = building(60, box(760, -10, 770, 10));
    CastShadow shadow = cast(sun(90, 20), ShadowOptions.STANDARD, tower);

    // 60 / tan 20 is 164.8 metres; the box ends 746 metres east of its middle.
    assertThat(shaded(shadow, 600, 0)).isTrue();
    assertThat(shaded(shadow, 590, 0)).isFalse();
    assertThat(BOX.contains(shadow.area().getEnvelopeInternal())).isTrue();
    assertThat(cast(sun(270, 20), ShadowOptions.STANDARD, tower).area().isEmpty()).isTrue();
  }

  @Test
  void longShadowsAreCutAndSaySo() {
    Obstruction house = building(10, box(-5, -5, 5, 5));
    ShadowOptions short100 = new ShadowOptions(0, LineOfSight.STANDARD, 100);
    CastShadow shadow = cast(sun(270, 2), short100, house);

    assertThat(shadow.cut()).isTrue();
    assertThat(areaM2(shadow.area())).isEqualTo(10 * 110, within(1.0));
    assertThat(cast(sun(270, 2), ShadowOptions.STANDARD, house).cut()).isFalse();
    // A top of 10 metres still sees a sun at 0.1 degrees that does not rise over its shadow's end.
    assertThat(cast(sun(270, 0.1), ShadowOptions.STANDARD, house).cut()).isTrue();
  }

  @Test
  void noSunCastsNoShadow() {
    Obstructions one = Obstructions.of(List.of(building(10, box(-5, -5, 5, 5))), null);

    assertThat(CastShadow.within(one, BOX, sun(270, 0), ShadowOptions.STANDARD)).isEmpty();
    assertThat(CastShadow.within(one, BOX, sun(270, -4), ShadowOptions.STANDARD)).isEmpty();
    Obstructions none = Obstructions.of(List.of(), null);
    CastShadow nothing =
        CastShadow.within(none, BOX, sun(270, 9), ShadowOptions.STANDARD).orElseThrow();
    assertThat(nothing.area().isEmpty()).isTrue();
    assertThat(nothing.obstructions()).isZero();
  }

  @Test
  void whatIsLowerThanThePlaneCastsNothing() {
    CastShadow shadow = cast(sun(90, 20), AT_EYE, building(1.5, box(0, 0, 10, 10)));

    assertThat(shadow.area().isEmpty()).isTrue();
  }

  /** A bow tie, as careless maps have them, is mended and not refused. */
  @Test
  void crossedOutlinesAreMended() {
    CastShadow shadow =
        cast(sun(180, 45), ShadowOptions.STANDARD, building(5, ring(0, 0, 10, 10, 10, 0, 0, 10)));

    assertThat(shadow.area().isValid()).isTrue();
    assertThat(shaded(shadow, 1, 5)).isTrue();
    assertThat(shaded(shadow, 1, 12)).isTrue();
  }

  /**
   * Rays are parallel over the box: 3 km from the middle the shadow is that of a box of its own,
   * with the sun as it stands there. Ten centimetres at 120 metres of shadow: half of a thousandth.
   */
  @Test
  void farFromTheMiddleTheShadowIsThatOfTheSunThere() {
    Instant instant = Instant.parse("2026-05-12T16:30:00Z");
    SpaEphemeris ephemeris = new SpaEphemeris();
    Obstructions one = Obstructions.of(List.of(building(30, box(2090, 2090, 2110, 2110))), null);
    GeoPoint there = at(2100, 2100);
    Envelope wide = new Envelope(15.96, 16.04, 47.975, 48.025);
    Envelope own =
        new Envelope(
            there.longitudeDeg() - 0.004,
            there.longitudeDeg() + 0.004,
            there.latitudeDeg() - 0.003,
            there.latitudeDeg() + 0.003);
    Geometry fromMiddle =
        CastShadow.within(one, wide, ephemeris.direction(instant, PLACE), ShadowOptions.STANDARD)
            .orElseThrow()
            .area();
    Geometry fromThere =
        CastShadow.within(one, own, ephemeris.direction(instant, there), ShadowOptions.STANDARD)
            .orElseThrow()
            .area();

    Envelope a = fromMiddle.getEnvelopeInternal();
    Envelope b = fromThere.getEnvelopeInternal();
    assertThat((a.getMaxX() - b.getMaxX()) / PLANE.longitudeDeg(1)).isEqualTo(0, within(0.1));
    assertThat((a.getMaxY() - b.getMaxY()) / PLANE.latitudeDeg(1)).isEqualTo(0, within(0.1));
    assertThat((a.getMinY() - b.getMinY()) / PLANE.latitudeDeg(1)).isEqualTo(0, within(0.1));
  }

  @Test
  void seesAcrossTheDateLine() {
    Coordinate[] corners = new Coordinate[5];
    double[] longitudes = {-179.9999, -179.9998, -179.9998, -179.9999, -179.9999};
    double[] latitudes = {-17.0001, -17.0001, -16.9999, -16.9999, -17.0001};
    for (int i = 0; i < 5; i++) {
      corners[i] = new Coordinate(longitudes[i], latitudes[i]);
    }
    Obstructions house =
        Obstructions.of(List.of(building(40, FACTORY.createLinearRing(corners))), null);
    CastShadow shadow =
        CastShadow.within(
                house,
                new Envelope(179.99, 180, -17.005, -16.995),
                sun(90, 30),
                ShadowOptions.STANDARD)
            .orElseThrow();

    // 40 / tan 30 is 69.3 metres, 0.000651 degrees, from -179.9998 at most.
    assertThat(shadow.area().getEnvelopeInternal().getMinX())
        .isEqualTo(180.0001 - 0.000651, within(2e-6));
    assertThat(shadow.area().getEnvelopeInternal().getMaxX()).isEqualTo(180.0);
  }

  @Test
  void refusesBoxesThatItCanNotDo() {
    Obstructions none = Obstructions.of(List.of(), null);
    SunDirection sun = sun(100, 20);

    assertThatThrownBy(
            () ->
                CastShadow.within(none, new Envelope(15, 16, 48, 49), sun, ShadowOptions.STANDARD))
        .hasMessageContaining("at most 5000 metres")
        .hasMessageContaining("ask for a smaller box");
    assertThatThrownBy(() -> CastShadow.within(none, new Envelope(), sun, ShadowOptions.STANDARD))
        .hasMessageContaining("expected a box with longitudes in [-180, 180]");
    assertThatThrownBy(() -> new ShadowOptions(-1, LineOfSight.STANDARD, 100))
        .hasMessageContaining("found -1.0");
    assertThatThrownBy(() -> new ShadowOptions(0, LineOfSight.STANDARD, Double.NaN))
        .hasMessageContaining("found NaN");
  }
}
