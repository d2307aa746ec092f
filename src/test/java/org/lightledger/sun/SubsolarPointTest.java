package org.lightledger.sun;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.Angles;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;

class SubsolarPointTest {
  /** 8.794 arc seconds: an altitude is lowered by no more than this. */
  private static final double PARALLAX_DEG = 0.002443;

  @Property
  void noonAltitudeIsTheComplementOfTheZenithDistance(
      @ForAll @DoubleRange(min = -90.0, max = 90.0) @Scale(12) double latitudeDeg,
      @ForAll @DoubleRange(min = -180.0, max = 180.0) @Scale(12) double longitudeDeg,
      @ForAll @DoubleRange(min = -23.44, max = 23.44) @Scale(12) double declinationDeg) {
    SubsolarPoint sun = new SubsolarPoint(declinationDeg, Angles.normalizeDeg(-longitudeDeg));
    double zenithDistanceDeg = Math.abs(latitudeDeg - declinationDeg);
    double loweredDeg = PARALLAX_DEG * Math.sin(Math.toRadians(zenithDistanceDeg));

    SunDirection direction = sun.from(new GeoPoint(latitudeDeg, longitudeDeg));

    assertThat(direction.geometricAltitudeDeg())
        .isCloseTo(90.0 - zenithDistanceDeg - loweredDeg, within(1e-6));
  }

  @Property
  void morningMirrorsAfternoon(
      @ForAll @DoubleRange(min = -89.0, max = 89.0) @Scale(12) double latitudeDeg,
      @ForAll @DoubleRange(min = -23.44, max = 23.44) @Scale(12) double declinationDeg,
      @ForAll @DoubleRange(min = 0.001, max = 179.999) @Scale(12) double hourAngleDeg) {
    GeoPoint place = new GeoPoint(latitudeDeg, 0.0);
    SunDirection before = new SubsolarPoint(declinationDeg, 360.0 - hourAngleDeg).from(place);
    SunDirection after = new SubsolarPoint(declinationDeg, hourAngleDeg).from(place);

    assertThat(after.geometricAltitudeDeg()).isCloseTo(before.geometricAltitudeDeg(), within(1e-9));
    assertThat(
            Math.abs(Angles.turnDeg(after.azimuth().trueDeg(), 360.0 - before.azimuth().trueDeg())))
        .isLessThan(1e-6);
  }

  @Property
  void hemispheresMirrorEachOther(
      @ForAll @DoubleRange(min = -89.0, max = 89.0) @Scale(12) double latitudeDeg,
      @ForAll @DoubleRange(min = -23.44, max = 23.44) @Scale(12) double declinationDeg,
      @ForAll @DoubleRange(min = 0.0, max = 359.999) @Scale(12) double hourAngleDeg) {
    SunDirection here =
        new SubsolarPoint(declinationDeg, hourAngleDeg).from(new GeoPoint(latitudeDeg, 0.0));
    SunDirection there =
        new SubsolarPoint(-declinationDeg, hourAngleDeg).from(new GeoPoint(-latitudeDeg, 0.0));

    assertThat(
            Angles.gapDeg(
                here.azimuth().trueDeg(),
                here.geometricAltitudeDeg(),
                180.0 - there.azimuth().trueDeg(),
                there.geometricAltitudeDeg()))
        .isLessThan(1e-6);
  }

  /** The date line has two names and the full turn is no step. */
  @Property
  void wrapsWithoutASeam(
      @ForAll @DoubleRange(min = -90.0, max = 90.0) @Scale(12) double latitudeDeg,
      @ForAll @DoubleRange(min = -23.44, max = 23.44) @Scale(12) double declinationDeg,
      @ForAll @DoubleRange(min = 0.0, max = 359.999) @Scale(12) double hourAngleDeg) {
    SubsolarPoint sun = new SubsolarPoint(declinationDeg, hourAngleDeg);
    SunDirection west = sun.from(new GeoPoint(latitudeDeg, -180.0));
    SunDirection east = sun.from(new GeoPoint(latitudeDeg, 180.0));
    SunDirection endOfTurn =
        new SubsolarPoint(declinationDeg, Math.nextDown(360.0))
            .from(new GeoPoint(latitudeDeg, 0.0));
    SunDirection startOfTurn =
        new SubsolarPoint(declinationDeg, 0.0).from(new GeoPoint(latitudeDeg, 0.0));

    assertThat(west.gapDeg(east)).isLessThan(1e-6);
    assertThat(endOfTurn.gapDeg(startOfTurn)).isLessThan(1e-6);
    assertThat(west.azimuth().trueDeg()).isBetween(0.0, Math.nextDown(360.0));
  }

  @Property
  void altitudeAloneIsTheSameAltitude(
      @ForAll @DoubleRange(min = -90.0, max = 90.0) @Scale(12) double altitudeDeg) {
    assertThat(SubsolarPoint.geometricAltitudeDeg(SubsolarPoint.upAt(altitudeDeg)))
        .isCloseTo(altitudeDeg, within(3e-6));
  }

  @Example
  void risesInTheEastAndSetsInTheWestAtTheEquinox() {
    GeoPoint equator = new GeoPoint(0.0, 0.0);

    assertThat(new SubsolarPoint(0.0, 270.0).from(equator).azimuth()).isEqualTo(new Bearing(90.0));
    assertThat(new SubsolarPoint(0.0, 90.0).from(equator).azimuth()).isEqualTo(new Bearing(270.0));
  }

  @ParameterizedTest
  @CsvSource({"NaN, 0", "0, NaN", "90.1, 0", "-90.1, 0", "0, 360", "0, -0.1", "0, Infinity"})
  void refusesWhatIsNoAngle(double declinationDeg, double hourAngleDeg) {
    assertThatThrownBy(() -> new SubsolarPoint(declinationDeg, hourAngleDeg))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageStartingWith("expected ")
        .hasMessageContaining("found ");
  }

  @ParameterizedTest
  @CsvSource({"NaN, 0", "0, NaN", "91, 0", "0, -91"})
  void aDirectionRefusesWhatIsNoAltitude(double geometricDeg, double apparentDeg) {
    Bearing north = new Bearing(0.0);

    assertThatThrownBy(() -> new SunDirection(north, geometricDeg, apparentDeg))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageStartingWith("expected an altitude in [-90, 90] degrees, found ");
  }
}
