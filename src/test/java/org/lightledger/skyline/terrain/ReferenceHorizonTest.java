package org.lightledger.skyline.terrain;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.skyline.LineOfSight;
import org.lightledger.skyline.SkylineFlag;
import org.lightledger.testing.Reference;

/**
 * Against the independent profiles. Their rays run on a sphere of 6371 kilometres, which moves them
 * by up to a quarter of a percent of the distance, and sample the surface every 45 metres up to
 * 5040, then every 60, so that they miss what rises between two samples. Done the same way, our
 * surface gives their figures; where the exact walk on the ellipsoid finds something else, samples
 * a quarter of a metre apart must find it too.
 */
class ReferenceHorizonTest {
  private static final double REACH_M = 60_000.0;
  private static final TerrainOptions OPTIONS =
      new TerrainOptions(
          LineOfSight.EYE_HEIGHT_M, LineOfSight.STANDARD, REACH_M, REACH_M, 9.0 / 1.645);

  /** One row of the table beside what was found. */
  private record Ray(
      String name,
      GeoPoint place,
      double azimuthDeg,
      double referenceDeg,
      double referenceM,
      double endedM,
      int voids,
      TerrainHorizon horizon) {
    int step() {
      return (int) (azimuthDeg * 2.0);
    }

    double foundDeg() {
      return horizon.altitudeDeg(step());
    }
  }

  private static ElevationSurface surface() throws IOException {
    ElevationSurface.Opened opened =
        ElevationSurface.open(
            List.of(
                Reference.path("terrain/N43E007.hgt.zip"),
                Reference.path("terrain/N55W003.hgt.zip")),
            ElevationSurface.DEFAULT_CACHE_BYTES);
    assertThat(opened.problems()).isEmpty();
    return opened.surface();
  }

  private static List<Ray> rays(ElevationSurface surface) {
    Map<GeoPoint, TerrainHorizon> horizons = new HashMap<>();
    List<Ray> rays = new ArrayList<>();
    for (Map<String, String> row : Reference.csv("terrain/horizon-profiles.csv")) {
      GeoPoint place = new GeoPoint(number(row, "lat"), number(row, "lon"));
      TerrainHorizon horizon =
          horizons.computeIfAbsent(
              place, key -> TerrainHorizon.around(surface, key, OPTIONS).orElseThrow());
      rays.add(
          new Ray(
              row.get("place") + " " + row.get("azimuth_true_deg"),
              place,
              number(row, "azimuth_true_deg"),
              number(row, "horizon_deg_k0.13"),
              number(row, "horizon_distance_m"),
              number(row, "ray_ended_m"),
              (int) number(row, "void_samples"),
              horizon));
    }
    return rays;
  }

  /** How the profiles move along a ray. */
  @FunctionalInterface
  private interface Way {
    GeoPoint at(GeoPoint from, double azimuthDeg, double distanceM);
  }

  private static final Way ELLIPSOID =
      (from, azimuthDeg, distanceM) ->
          Geodesy.destination(from, new Bearing(azimuthDeg), distanceM);

  private static final Way SPHERE =
      (from, azimuthDeg, distanceM) -> {
        double latitude = Math.toRadians(from.latitudeDeg());
        double azimuth = Math.toRadians(azimuthDeg);
        double arc = distanceM / 6_371_000.0;
        double sine =
            Math.sin(latitude) * Math.cos(arc)
                + Math.cos(latitude) * Math.sin(arc) * Math.cos(azimuth);
        double turned =
            Math.atan2(
                Math.sin(azimuth) * Math.sin(arc) * Math.cos(latitude),
                Math.cos(arc) - Math.sin(latitude) * sine);
        return new GeoPoint(
            Math.toDegrees(Math.asin(sine)), from.longitudeDeg() + Math.toDegrees(turned));
      };

  /** The table has three decimals; the rest is its rounded refraction and radius. */
  @Test
  void theSameWayGivesTheSameFigures() throws IOException {
    ElevationSurface surface = surface();
    List<Double> differences = new ArrayList<>();
    for (Ray ray : rays(surface)) {
      differences.add(Math.abs(sampled(surface, ray, SPHERE, 45.0) - ray.referenceDeg));
    }
    Collections.sort(differences);

    assertThat(differences).hasSize(576);
    assertThat(differences.get(288)).isLessThan(0.0005);
    assertThat(differences.get(575)).isLessThan(0.004);
  }

  /** A ray may stand two centimetres aside, which on a near cliff is worth 0.001 degrees. */
  @Test
  void theWalkMissesNothingBetween() throws IOException {
    ElevationSurface surface = surface();
    List<Double> differences = new ArrayList<>();
    int unlike = 0;
    for (Ray ray : rays(surface)) {
      assertThat(ray.foundDeg())
          .as(ray.name)
          .isGreaterThan(sampled(surface, ray, ELLIPSOID, 45.0) - 0.001);
      if (ray.referenceM > 300.0) {
        differences.add(Math.abs(ray.foundDeg() - ray.referenceDeg));
        if (Math.abs(ray.foundDeg() - ray.referenceDeg) > 0.3) {
          unlike++;
          assertThat(ray.foundDeg()).as(ray.name).isGreaterThan(ray.referenceDeg);
          assertThat(sampled(surface, ray, ELLIPSOID, 0.25))
              .as(ray.name)
              .isBetween(ray.foundDeg() - 0.01, ray.foundDeg() + 0.001);
        }
      }
    }
    Collections.sort(differences);

    assertThat(differences).hasSize(527);
    assertThat(differences.get(263)).isLessThan(0.03);
    assertThat(unlike).isEqualTo(15);
  }

  /** A ray that leaves is marked, unless no land on earth could show from there on. */
  @Test
  void marksRaysThatLeaveTheTile() throws IOException {
    int marked = 0;
    for (Ray ray : rays(surface())) {
      if (ray.endedM == REACH_M || ray.endedM < REACH_M - 100.0) {
        double edgeM = Math.min(ray.endedM, REACH_M);
        double showsFromM =
            ray.horizon.eyeM()
                + edgeM * Math.tan(Math.toRadians(ray.foundDeg()))
                + edgeM * edgeM * LineOfSight.STANDARD.dropPerM2();
        boolean expected = ray.endedM < REACH_M && showsFromM < 8849.0;
        assertThat(ray.horizon.flags(ray.step()).contains(SkylineFlag.LEFT_KNOWN_ELEVATION))
            .as(ray.name)
            .isEqualTo(expected);
        marked += expected ? 1 : 0;
      }
    }
    assertThat(marked).isGreaterThan(100);
  }

  /** Sampling can step over a void; the walk can not, and does not look past proof. */
  @Test
  void marksRaysThatCrossVoids() throws IOException {
    int sampledVoids = 0;
    int marked = 0;
    for (Ray ray : rays(surface())) {
      boolean crossed = ray.horizon.flags(ray.step()).contains(SkylineFlag.CROSSED_VOID);
      sampledVoids += ray.voids > 0 ? 1 : 0;
      marked += ray.voids > 0 && crossed ? 1 : 0;
      if (ray.place.latitudeDeg() > 55.0) {
        assertThat(crossed).as(ray.name).isFalse();
      }
    }
    assertThat(sampledVoids).isEqualTo(102);
    assertThat(marked).isEqualTo(100);
  }

  /** The horizon by samples, in steps of so many metres to 5040, then of 60. */
  private static double sampled(ElevationSurface surface, Ray ray, Way way, double nearStepM) {
    double drop = LineOfSight.STANDARD.dropPerM2();
    double best = Double.NEGATIVE_INFINITY;
    double distanceM = nearStepM;
    while (distanceM <= REACH_M) {
      OptionalDouble ground = surface.groundM(way.at(ray.place, ray.azimuthDeg, distanceM));
      if (ground.isPresent()) {
        best =
            Math.max(
                best, (ground.getAsDouble() - ray.horizon.eyeM()) / distanceM - distanceM * drop);
      }
      distanceM += distanceM < 5040.0 ? nearStepM : 60.0;
    }
    return Math.toDegrees(Math.atan(best));
  }

  private static double number(Map<String, String> row, String column) {
    return Double.parseDouble(row.get(column));
  }
}
