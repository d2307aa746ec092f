package org.lightledger.skyline.buildings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineFlag;
import org.lightledger.skyline.SkylineSource;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;

class BuildingHorizonTest {
  private static final GeoPoint PLACE = new GeoPoint(48.0, 16.0);
  private static final GeometryFactory FACTORY = new GeometryFactory();

  /** A corner so many metres east and north of the place, by geodesics. */
  private static Coordinate at(double eastM, double northM) {
    GeoPoint corner =
        Geodesy.destination(
            PLACE,
            Bearing.of(Math.toDegrees(Math.atan2(eastM, northM))),
            Math.hypot(eastM, northM));
    return new Coordinate(corner.longitudeDeg(), corner.latitudeDeg());
  }

  private static LinearRing ring(double... eastNorth) {
    Coordinate[] corners = new Coordinate[eastNorth.length / 2 + 1];
    for (int i = 0; i < corners.length; i++) {
      int from = 2 * i % eastNorth.length;
      corners[i] = at(eastNorth[from], eastNorth[from + 1]);
    }
    return FACTORY.createLinearRing(corners);
  }

  private static Obstruction box(
      String id, double west, double south, double east, double north, double heightM) {
    return building(id, heightM, null, ring(west, south, east, south, east, north, west, north));
  }

  private static Obstruction building(
      String id, double heightM, @Nullable Double groundM, LinearRing outer, LinearRing... holes) {
    return new Obstruction(
        id,
        ObstructionKind.BUILDING,
        FACTORY.createPolygon(outer, holes),
        heightM,
        0.0,
        HeightSource.GIVEN,
        groundM);
  }

  private static BuildingHorizon around(Obstruction... obstructions) {
    return Obstructions.of(List.of(obstructions), null).around(PLACE, BuildingOptions.STANDARD);
  }

  /**
   * A house 12 metres high, its wall 30 metres north, from 20 west to 40 east. By hand: at azimuth
   * a the wall is 30 / cos a away, so the altitude is atan(10.4 cos a / 30): 19.120 degrees at 0,
   * 16.704 at 30, and at 53 the last of the wall, 11.783; its corner lies at 53.130.
   */
  @Test
  void aBoxAgainstHandComputedAngles() {
    BuildingHorizon horizon = around(box("house", -20, 30, 40, 45, 12));

    assertThat(horizon.altitudeDeg(0)).isEqualTo(19.120, within(0.01));
    assertThat(horizon.altitudeDeg(60)).isEqualTo(16.704, within(0.01));
    assertThat(horizon.altitudeDeg(106)).isEqualTo(11.783, within(0.01));
    assertThat(horizon.altitudeDeg(107)).isEqualTo(-90.0);
    // At 327 the west wall shows no more of itself: the corner lies at atan(-20 / 30), 326.310.
    assertThat(horizon.altitudeDeg(654)).isEqualTo(16.210, within(0.01));
    assertThat(horizon.altitudeDeg(652)).isEqualTo(-90.0);
    assertThat(horizon.distanceM(0)).isEqualTo(30.0, within(0.001));
    assertThat(horizon.obstruction(0).orElseThrow().id()).isEqualTo("house");
    assertThat(horizon.obstruction(360)).isEmpty();
  }

  /** Between 53.0 and 53.25 the highest is at 53.0 less a quarter: atan(10.4 cos 52.75 / 30). */
  @Test
  void keepsTheHighestWithinAStep() {
    BuildingHorizon horizon = around(box("house", -20, 30, 40, 45, 12));

    assertThat(horizon.highestInStepDeg(106)).isEqualTo(11.850, within(0.01));
    assertThat(horizon.highestInStepDeg(0)).isEqualTo(19.120, within(0.01));
    assertThat(horizon.highestInStepDeg(60)).isEqualTo(16.743, within(0.01));
    assertThat(horizon.highestInStepDeg(200)).isEqualTo(-90.0);
  }

  /** A mast 0.3 degrees wide between two azimuths is not at them, but makes them uncertain. */
  @Test
  void whatStandsBetweenTwoAzimuthsIsUncertainty() {
    Skyline skyline = around(box("mast", 0.35, 99.8, 0.75, 100.2, 40)).onto(Skyline.notKnown());

    assertThat(skyline.altitudeDeg(0)).isZero();
    assertThat(skyline.altitudeDeg(1)).isZero();
    assertThat(skyline.uncertaintyDeg(0)).isEqualTo(21.0, within(0.3));
    assertThat(skyline.uncertaintyDeg(1)).isEqualTo(21.0, within(0.3));
    assertThat(skyline.uncertaintyDeg(2)).isZero();
  }

  @Test
  void insideACourtyardTheInnerWallsCount() {
    Obstruction cloister =
        building(
            "cloister",
            9.6,
            null,
            ring(-30, -30, 30, -30, 30, 30, -30, 30),
            ring(-10, -10, 10, -10, 10, 10, -10, 10));
    BuildingHorizon horizon = around(cloister);

    assertThat(horizon.inside()).isEmpty();
    for (int quarter = 0; quarter < 4; quarter++) {
      // Eight metres above the eye, ten away, and at the corners 14.14.
      assertThat(horizon.altitudeDeg(180 * quarter)).isEqualTo(38.660, within(0.01));
      assertThat(horizon.altitudeDeg(180 * quarter + 90)).isEqualTo(29.496, within(0.01));
    }
  }

  @Test
  void aPlaceInsideAnOutlineIsReported() {
    BuildingHorizon horizon =
        around(box("b", -5, -5, 5, 5, 8), box("a", -5, -5, 5, 5, 9), box("c", 20, -5, 30, 5, 8));

    assertThat(horizon.inside()).extracting(Obstruction::id).containsExactly("a", "b");
    assertThat(horizon.altitudeDeg(180))
        .isEqualTo(Math.toDegrees(Math.atan(6.4 / 20)), within(0.01));
    assertThat(horizon.altitudeDeg(0)).isEqualTo(-90.0);
    Skyline skyline = horizon.onto(levelLand());
    assertThat(skyline.lowerBoundOnly(0)).as("something may stand over the place").isTrue();
    assertThat(skyline.flags(180)).containsExactly(SkylineFlag.PERHAPS_COVERED);
    assertThat(around(box("c", 20, -5, 30, 5, 8)).onto(levelLand()).flags(180)).isEmpty();
  }

  private static Skyline levelLand() {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      builder.set(step, 0.0, 0.1, SkylineSource.TERRAIN, Set.of());
    }
    return builder.build();
  }

  /** A wall that points straight at the place is seen end on, at its nearer corner. */
  @Test
  void aWallSeenEndOn() {
    BuildingHorizon horizon = around(box("wall", -0.1, 20, 0.1, 50, 5));

    assertThat(horizon.altitudeDeg(0)).isEqualTo(Math.toDegrees(Math.atan(3.4 / 20)), within(0.01));
    assertThat(around(box("w", 0, 20, 5, 50, 5)).highestInStepDeg(0))
        .isEqualTo(Math.toDegrees(Math.atan(3.4 / 20)), within(0.01));
  }

  /** A flat roof below the eye is highest at its far edge. */
  @Test
  void lowRoofsAreSeenToTheirFarEdge() {
    BuildingHorizon horizon = around(box("shed", -5, 10, 5, 20, 1.0));

    assertThat(horizon.altitudeDeg(0))
        .isEqualTo(Math.toDegrees(Math.atan(-0.6 / 20)), within(0.01));
    assertThat(horizon.onto(Skyline.notKnown()).altitudeDeg(0)).isZero();
  }

  @Test
  void groundRaisesAndLowers() {
    LinearRing outline = ring(-5, 50, 5, 50, 5, 60, -5, 60);
    Obstruction given = building("g", 10, 120.0, outline);
    Obstructions onSlope =
        Obstructions.of(
            List.of(given, box("s", -5, -60, 5, -50, 10)),
            place -> OptionalDouble.of(100.0 + 3.0 * Math.signum(place.latitudeDeg() - 48.0)));
    BuildingHorizon horizon = onSlope.around(PLACE, BuildingOptions.STANDARD);

    // Ground 100 here; 120 under the first, as given; 97 under the second, as asked.
    assertThat(horizon.altitudeDeg(0))
        .isEqualTo(Math.toDegrees(Math.atan(28.4 / 50)), within(0.01));
    assertThat(horizon.altitudeDeg(360))
        .isEqualTo(Math.toDegrees(Math.atan(5.4 / 50)), within(0.01));
  }

  @Test
  void theHigherOfLandAndHouseStands() {
    SkylineBuilder land = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      land.set(
          step,
          step < 30 ? 25.0 : 5.0,
          0.2,
          SkylineSource.TERRAIN,
          Set.of(SkylineFlag.LEFT_KNOWN_ELEVATION));
    }
    Skyline both = around(box("house", -20, 30, 40, 45, 12)).onto(land.build());

    assertThat(both.source(10)).isEqualTo(SkylineSource.TERRAIN);
    assertThat(both.altitudeDeg(10)).isEqualTo(25.0);
    assertThat(both.source(60)).isEqualTo(SkylineSource.BUILDING);
    assertThat(both.altitudeDeg(60)).isEqualTo(16.704, within(0.01));
    assertThat(both.flags(60)).containsExactly(SkylineFlag.LEFT_KNOWN_ELEVATION);
    // A metre of height at 34.6 metres is 1.5 degrees; the step adds 0.04.
    assertThat(both.uncertaintyDeg(60)).isEqualTo(1.52, within(0.02));
  }

  /** Rays against every wall, one by one, for random boxes and triangles. */
  @Test
  void equalsRaysAgainstEveryWall() {
    Random random = new Random(7);
    List<Obstruction> many = new ArrayList<>();
    List<double[]> walls = new ArrayList<>();
    for (int i = 0; i < 200; i++) {
      double east = random.nextDouble() * 1600 - 800;
      double north = random.nextDouble() * 1600 - 800;
      if (Math.hypot(east, north) < 60) {
        continue;
      }
      double[] corners = new double[2 * (3 + random.nextInt(3))];
      for (int c = 0; c < corners.length; c += 2) {
        double turn = Math.PI * 4 * c / (2 * corners.length) + random.nextDouble() * 0.5;
        corners[c] = east + 25 * Math.sin(turn);
        corners[c + 1] = north + 25 * Math.cos(turn);
      }
      double height = 2 + random.nextDouble() * 30;
      many.add(building("b" + i, height, null, ring(corners)));
      for (int c = 0; c < corners.length; c += 2) {
        int next = (c + 2) % corners.length;
        walls.add(
            new double[] {
              corners[c], corners[c + 1], corners[next], corners[next + 1], height - 1.6
            });
      }
    }
    BuildingHorizon horizon = around(many.toArray(Obstruction[]::new));

    for (int step = 0; step < Skyline.STEPS; step++) {
      double azimuth = Math.toRadians(Skyline.azimuthDeg(step));
      double best = Double.NEGATIVE_INFINITY;
      for (double[] wall : walls) {
        double alongEast = wall[2] - wall[0];
        double alongNorth = wall[3] - wall[1];
        double cross = Math.sin(azimuth) * alongNorth - Math.cos(azimuth) * alongEast;
        double distance = (wall[0] * alongNorth - wall[1] * alongEast) / cross;
        double part = (wall[0] * Math.cos(azimuth) - wall[1] * Math.sin(azimuth)) / cross;
        if (distance > 0 && part >= 0 && part <= 1) {
          best = Math.max(best, wall[4] / distance - distance * 6.8278e-8);
        }
      }
      assertThat(horizon.altitudeDeg(step))
          .as("azimuth %s", Skyline.azimuthDeg(step))
          .isEqualTo(Math.toDegrees(Math.atan(best)), within(0.01));
      assertThat(horizon.highestInStepDeg(step)).isGreaterThanOrEqualTo(horizon.altitudeDeg(step));
    }
  }

  @Test
  void seesAcrossTheDateLine() {
    GeoPoint place = new GeoPoint(-17.0, 179.9999);
    Coordinate[] corners = new Coordinate[5];
    double[] longitudes = {-179.9997, -179.9996, -179.9996, -179.9997, -179.9997};
    double[] latitudes = {-17.0001, -17.0001, -16.9999, -16.9999, -17.0001};
    for (int i = 0; i < 5; i++) {
      corners[i] = new Coordinate(longitudes[i], latitudes[i]);
    }
    Obstruction house = building("h", 10, null, FACTORY.createLinearRing(corners));
    BuildingHorizon horizon =
        Obstructions.of(List.of(house), null).around(place, BuildingOptions.STANDARD);

    // 0.0004 degrees of longitude are 42.6 metres at 17 degrees.
    assertThat(horizon.distanceM(180)).isEqualTo(42.6, within(0.1));
  }
}
