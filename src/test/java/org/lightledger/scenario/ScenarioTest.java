package org.lightledger.scenario;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.geo.Angles;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.suncalc.SuncalcEphemeris;

/** The invented town keeps the promises that the demo and the tests build on. */
class ScenarioTest {
  private final Brezaluz town = Brezaluz.model();

  @ParameterizedTest
  @CsvSource({"0,0", "12,-7", "-620,560", "2100,2100", "-3000,0", "0,-3000"})
  void localMetresAreRealMetres(double east, double north) {
    GeoPoint place = LocalFrame.toGeo(east, north);
    Point back = LocalFrame.toLocal(place);
    assertThat(back.to(new Point(east, north))).isLessThan(0.001);
    GeoPoint beside = LocalFrame.toGeo(east + 100, north);
    // The projection stretches by less than 1 - sin(d/R) / (d/R), 4e-8 at 3 km.
    assertThat(Geodesy.distanceM(place, beside)).isCloseTo(100, within(0.001));
  }

  @Test
  void spotsAreManyAndApart() {
    List<Spot> spots = town.spots();
    assertThat(spots).hasSizeGreaterThanOrEqualTo(14);
    for (Spot a : spots) {
      for (Spot b : spots) {
        if (!a.equals(b)) {
          assertThat(a.at().to(b.at())).as(a.name() + " to " + b.name()).isGreaterThan(60);
        }
      }
    }
    assertThat(spots.stream().map(Spot::name).distinct()).hasSameSizeAs(spots);
  }

  @Test
  void camerasOfDifferentSpotsAreApartAndOfOneFacingTogether() {
    List<ShotPlan> plans = ShotList.plans();
    for (ShotPlan a : plans) {
      for (ShotPlan b : plans) {
        double metres = camera(a).to(camera(b));
        if (!a.spot().equals(b.spot())) {
          assertThat(metres).as(a.file() + " to " + b.file()).isGreaterThan(50);
        } else if (Math.abs(Angles.turnDeg(a.facingDeg(), b.facingDeg())) < 40) {
          assertThat(metres).as(a.file() + " to " + b.file()).isLessThan(5);
        }
      }
    }
  }

  private Point camera(ShotPlan plan) {
    return town.spot(plan.spot())
        .at()
        .along(plan.facingDeg() + plan.offsetDeg(), -plan.distanceM());
  }

  @Test
  void everySpotHasShotsAndEveryFacingIsShot() {
    for (Spot spot : town.spots()) {
      List<ShotPlan> shots =
          ShotList.plans().stream()
              .filter(plan -> plan.spot().equals(spot.name()))
              .collect(Collectors.toList());
      assertThat(shots).as(spot.name()).hasSizeBetween(3, 6);
      for (double facing : spot.facingsDeg()) {
        assertThat(shots).anyMatch(shot -> Math.abs(Angles.turnDeg(facing, shot.facingDeg())) < 15);
      }
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
  void atFiveSeveralSpotsAreBacklitInEveryMonth(int month) {
    ZonedDateTime five =
        LocalDate.of(2027, month, 15).atTime(LocalTime.of(17, 0)).atZone(ShotPlan.ZONE);
    SunDirection sun = new SuncalcEphemeris().direction(five.toInstant(), LocalFrame.origin());
    assertThat(sun.apparentAltitudeDeg()).isGreaterThan(5);
    List<String> backlit =
        town.spots().stream()
            .filter(
                spot ->
                    spot.facingsDeg().stream()
                        .anyMatch(
                            facing ->
                                Math.abs(Angles.turnDeg(facing, sun.azimuth().trueDeg())) <= 30))
            .map(Spot::name)
            .collect(Collectors.toList());
    assertThat(backlit)
        .contains(
            "Ansar Meadow",
            "Reed Bank",
            "Bridge Landing",
            "Tinajo Alley",
            "Poplar Avenue",
            "Wheat Edge",
            "Hedge Lane",
            "Tordel Top")
        .doesNotContain("Chapel Steps", "Market Square", "Mill Wall", "Cloth Hall Arcade");
  }

  @Test
  void theValleyIsLevelAndTheHillIsAHill() {
    town.river().course().forEach(middle -> assertThat(town.terrain().up(middle)).isLessThan(-1));
    assertThat(town.terrain().up(new Point(0, 0))).isBetween(1.0, 8.0);
    assertThat(town.terrain().up(Terrain.HILL)).isGreaterThan(60);
    assertThat(town.terrain().up(new Point(1750, 0))).isGreaterThan(120);
  }
}
