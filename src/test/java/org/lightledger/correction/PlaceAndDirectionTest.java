package org.lightledger.correction;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.lightledger.correction.Desk.Photo;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.ClockCorrection;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;
import org.lightledger.shot.track.TrackPlaces;
import org.lightledger.shot.view.CameraView;
import org.lightledger.shot.view.PinholeCamera;
import org.lightledger.shot.view.Pixel;
import org.lightledger.sun.SunDirection;

/** Where shots were taken and looked, by track logs, other shots and taps. */
class PlaceAndDirectionTest extends CorrectionsTestBase {
  @Test
  void aTrackLogPlacesShotsTogetherWithTheClocksCorrection() {
    desk.with(
        Photo.at("2026:05:09 20:30:00", null, null),
        Photo.at("2026:05:09 20:30:30", "+02:00", null),
        Photo.at("2026:05:09 23:30:30", "+02:00", null),
        Photo.at("2026:05:09 20:30:40", "+02:00", MILL));
    TrackPlaces places =
        walk("2026-05-09T17:29:00Z", "41.93", "-6.42", "2026-05-09T17:31:00Z", "41.932", "-6.42");
    Correction correction =
        new Correction(
            new TimeWord.Clock(ClockCorrection.parse("-1:00:00")),
            new PlaceWord.Track(places),
            null);

    Corrected corrected = applyBackAndForth(correction, 1, 2, 3, 4);

    assertThat(corrected.outcomes().stream().map(Outcome::kind))
        .containsExactly(
            Outcome.Kind.FIXED, Outcome.Kind.FIXED, Outcome.Kind.UNCHANGED, Outcome.Kind.UNCHANGED);
    assertThat(instant(1)).isEqualTo("2026-05-09T17:30:00Z");
    Shot.Position half = Objects.requireNonNull(desk.shot(1).shot().position());
    assertThat(half.source()).isEqualTo(Shot.PositionSource.TRACK);
    assertThat(half.point().latitudeDeg()).isCloseTo(41.931, within(1e-6));
    assertThat(corrected.outcomes().get(2).why().get(0)).contains("Place the shot on the map");
    assertThat(corrected.outcomes().get(3).why().get(0)).contains("position of its own");

    Corrected moved = applyBackAndForth(clock("-2:00:00"), 1);
    assertThat(moved.id()).as("its place came from its time").isNull();
    assertThat(why(moved)).contains("placed by its time");
    applyBackAndForth(at(MILL), 1);
    assertThat(only(applyBackAndForth(clock("-2:00:00"), 1))).isEqualTo(Outcome.Kind.FIXED);
  }

  @Test
  void otherShotsOfTheSameMinutesPlaceAShot() {
    desk.with(
        Photo.at("2026:05:09 19:30:00", "+02:00", MILL),
        Photo.at("2026:05:09 19:32:00", "+02:00", null),
        Photo.at("2026:05:09 19:33:00", null, null),
        Photo.at("2026:05:09 22:33:00", "+02:00", null),
        Photo.at(null, null, null),
        Photo.at("2026:05:09 19:31:00", "+02:00", MILL));

    Corrected corrected = applyBackAndForth(Correction.of(new PlaceWord.Nearby()), 2, 3, 4, 5, 6);

    assertThat(corrected.outcomes().stream().map(Outcome::kind))
        .containsExactly(
            Outcome.Kind.FIXED,
            Outcome.Kind.FIXED,
            Outcome.Kind.UNCHANGED,
            Outcome.Kind.UNCHANGED,
            Outcome.Kind.UNCHANGED);
    Shot.Position position = Objects.requireNonNull(desk.shot(2).shot().position());
    assertThat(position.source()).isEqualTo(Shot.PositionSource.NEARBY_SHOT);
    assertThat(instant(3)).isEqualTo("2026-05-09T17:33:00Z");
    assertThat(corrected.outcomes().get(3).why().get(0)).contains("give the time first");
    assertThat(desk.shot(2).spotId()).isEqualTo(desk.shot(1).spotId());
  }

  @Test
  void aRefusedPositionIsNoReasonToWaitOnceTheShotIsPlaced() {
    desk.with(Photo.at("2026:05:09 19:30:00", "+02:00", new GeoPoint(0, 0)));
    assertThat(desk.shot(1).shot().problems())
        .anyMatch(problem -> problem.kind() == Problem.Kind.POSITION_REFUSED);

    assertThat(only(applyBackAndForth(at(MILL), 1))).isEqualTo(Outcome.Kind.FIXED);

    assertThat(desk.shot(1).shot().problems())
        .noneMatch(problem -> problem.kind() == Problem.Kind.POSITION_REFUSED);
    assertThat(desk.shot(1).shot().evidence().position()).isEqualTo(new GeoPoint(0, 0));
  }

  @Test
  void aDirectionTeachesTheSpotAFacing() {
    desk.with(
        Photo.at("2026:05:09 19:30:00", "+02:00", MILL),
        Photo.at("2026:05:09 19:31:00", "+02:00", MILL));
    assertThat(desk.spots().get(0).facings()).isEmpty();

    Corrected corrected = applyBackAndForth(looked(245), 1, 2);

    assertThat(corrected.count(Outcome.Kind.FIXED)).isEqualTo(2);
    assertThat(desk.spots().get(0).facings()).hasSize(1);
    assertThat(desk.spots().get(0).facings().get(0).bearing()).isEqualTo(new Bearing(245));
    assertThat(desk.spots().get(0).facings().get(0).shots()).isEqualTo(2);
    assertThat(only(applyBackAndForth(clock("+0:01:00"), 1))).isEqualTo(Outcome.Kind.FIXED);
    assertThat(Objects.requireNonNull(desk.shot(1).shot().facing()).source())
        .as("the owner's direction does not hang on the time")
        .isEqualTo(Shot.FacingSource.OWNER);
  }

  @Test
  void theSunInThePictureTellsTheDirectionUntilTheTimeChanges() {
    desk.with(Photo.at("2026:05:09 20:30:00", "+02:00", MILL));
    SunDirection sun = Objects.requireNonNull(desk.shot(1).sun());
    PinholeCamera camera = PinholeCamera.of(desk.shot(1).shot().evidence()).orElseThrow();
    Bearing truth = Bearing.of(sun.azimuth().trueDeg() - 12);
    Pixel disc =
        new CameraView(camera, truth, 4)
            .pixelOf(sun.azimuth(), sun.apparentAltitudeDeg())
            .orElseThrow();

    assertThat(only(applyBackAndForth(tapped(new Taps.Sun(disc)), 1)))
        .isEqualTo(Outcome.Kind.FIXED);
    Shot.Facing facing = Objects.requireNonNull(desk.shot(1).shot().facing());
    assertThat(facing.source()).isEqualTo(Shot.FacingSource.SUN_IN_PICTURE);
    assertThat(Math.abs(facing.bearing().turnToDeg(truth))).isLessThan(1e-6);
    assertThat(desk.spots().get(0).facings()).hasSize(1);

    assertThat(why(applyBackAndForth(clock("+0:00:05"), 1)))
        .as("in five seconds the sun moves by 0.02 degrees")
        .isEmpty();
    Corrected later = applyBackAndForth(clock("+0:20:00"), 1);
    assertThat(why(later)).contains("tap the sun or the shadow again");
    assertThat(desk.shot(1).shot().facing()).isNull();
    assertThat(desk.spots().get(0).facings()).isEmpty();
  }

  @Test
  void aShadowTellsTheDirection() {
    desk.with(Photo.at("2026:05:09 19:30:00", "+02:00", MILL));
    SunDirection sun = Objects.requireNonNull(desk.shot(1).sun());
    PinholeCamera camera = PinholeCamera.of(desk.shot(1).shot().evidence()).orElseThrow();
    Bearing truth = Bearing.of(sun.azimuth().trueDeg() + 170);
    CameraView view = new CameraView(camera, truth, -10);
    Pixel head =
        view.pixelOf(Bearing.of(sun.azimuth().trueDeg() + 180), -sun.apparentAltitudeDeg())
            .orElseThrow();

    applyBackAndForth(tapped(new Taps.OwnShadow(head)), 1);

    Shot.Facing facing = Objects.requireNonNull(desk.shot(1).shot().facing());
    assertThat(facing.source()).isEqualTo(Shot.FacingSource.SHADOW_IN_PICTURE);
    assertThat(Math.abs(facing.bearing().turnToDeg(truth))).isLessThan(1e-6);
  }

  @Test
  void aTapIsRefusedWithoutSunOrOutsideThePicture() {
    desk.with(
        Photo.at(null, null, MILL),
        Photo.at("2026:05:09 20:30:00", "+02:00", MILL),
        Photo.at("2026:05:09 23:59:00", "+02:00", MILL));

    Corrected corrected = applyBackAndForth(tapped(new Taps.Sun(new Pixel(9000, 10))), 1, 2, 3);

    assertThat(corrected.id()).isNull();
    assertThat(corrected.outcomes().stream().map(outcome -> outcome.why().get(0)))
        .satisfiesExactly(
            why -> assertThat(why).contains("settle them first"),
            why -> assertThat(why).contains("outside the picture"),
            why -> assertThat(why).contains("below the horizon"));
  }
}
