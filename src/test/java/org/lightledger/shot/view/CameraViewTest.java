package org.lightledger.shot.view;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.Angles;
import org.lightledger.geo.Bearing;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Exposure;
import org.lightledger.shot.view.PinholeCamera.Equivalence;
import org.lightledger.sun.SunDirection;

class CameraViewTest {
  private static final PinholeCamera CAMERA =
      PinholeCamera.of(6000, 4000, 35, Equivalence.DIAGONAL);

  /** Twice the arc tangent of half the side over the focal length, on film of 36 mm by 24 mm. */
  @ParameterizedTest
  @CsvSource({
    "24, 73.7398, 53.1301",
    "50, 39.5978, 26.9915",
    "18, 90.0000, 67.3801",
    "85, 23.9132, 16.0714",
  })
  void onThreeToTwoBothEquivalencesGiveTheFieldOfFilm(
      double focalMm, double horizontalDeg, double verticalDeg) {
    for (Equivalence equivalence : Equivalence.values()) {
      PinholeCamera camera = PinholeCamera.of(6000, 4000, focalMm, equivalence);

      assertThat(camera.horizontalFieldDeg()).isCloseTo(horizontalDeg, within(5e-5));
      assertThat(camera.verticalFieldDeg()).isCloseTo(verticalDeg, within(5e-5));
    }
  }

  /** 4000 by 3000 has a diagonal of 5000; film has 43.2666 mm, or 36 mm along the longer side. */
  @Test
  void onFourToThreeTheEquivalencesDiffer() {
    assertThat(PinholeCamera.of(4000, 3000, 26, Equivalence.DIAGONAL).focalLengthPx())
        .isCloseTo(26 * 5000 / 43.266615, within(1e-3));
    assertThat(PinholeCamera.of(4000, 3000, 26, Equivalence.LONG_SIDE).focalLengthPx())
        .isCloseTo(26 * 4000 / 36.0, within(1e-9));
    assertThat(PinholeCamera.of(3000, 4000, 26, Equivalence.LONG_SIDE).focalLengthPx())
        .isCloseTo(26 * 4000 / 36.0, within(1e-9));
  }

  @ParameterizedTest
  @CsvSource({
    "1, 6000, 4000",
    "2, 6000, 4000",
    "3, 6000, 4000",
    "4, 6000, 4000",
    "5, 4000, 6000",
    "6, 4000, 6000",
    "7, 4000, 6000",
    "8, 4000, 6000"
  })
  void theOrientationTurnsTheSides(int orientation, int width, int height) {
    PinholeCamera camera = PinholeCamera.of(evidence(35.0, orientation, 6000)).orElseThrow();

    assertThat(camera.widthPx()).isEqualTo(width);
    assertThat(camera.heightPx()).isEqualTo(height);
    assertThat(camera.focalLengthPx()).isEqualTo(CAMERA.focalLengthPx());
    assertThat(camera.focalLengthPart()).isCloseTo(0.5 / 35, within(1e-15));
  }

  @Test
  void withoutFocalLengthOrSizeThereIsNoCamera() {
    assertThat(PinholeCamera.of(evidence(null, 1, 6000))).isEqualTo(Optional.empty());
    assertThat(PinholeCamera.of(evidence(35.0, 1, null))).isEqualTo(Optional.empty());
  }

  private static Evidence evidence(
      @Nullable Double focalLength, int orientation, @Nullable Integer widthPx) {
    return new Evidence(
        "JPEG",
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        Exposure.UNKNOWN,
        focalLength,
        orientation,
        widthPx,
        4000,
        null,
        List.of());
  }

  @Property
  void directionsAreSeenWhereVectorsSay(
      @ForAll @DoubleRange(min = 0, max = 359.9) double facingDeg,
      @ForAll @DoubleRange(min = -80, max = 80) double pitchDeg,
      @ForAll @DoubleRange(min = 0, max = 359.9) double azimuthDeg,
      @ForAll @DoubleRange(min = -89, max = 89) double altitudeDeg) {
    CameraView view = new CameraView(CAMERA, new Bearing(facingDeg), pitchDeg);
    Optional<Pixel> seen =
        new Scene(CAMERA, facingDeg, pitchDeg).see(Scene.direction(azimuthDeg, altitudeDeg));
    Optional<Pixel> computed = view.pixelOf(new Bearing(azimuthDeg), altitudeDeg);

    assertThat(view.sunInFrame(new SunDirection(new Bearing(azimuthDeg), 0, altitudeDeg)))
        .isEqualTo(seen.isPresent());
    if (seen.isPresent()) {
      assertThat(computed.orElseThrow().x()).isCloseTo(seen.get().x(), within(1e-6));
      assertThat(computed.orElseThrow().y()).isCloseTo(seen.get().y(), within(1e-6));
    }
  }

  @Property
  void aPixelLooksWhereItsDirectionIsSeen(
      @ForAll @DoubleRange(min = 0, max = 359.9) double facingDeg,
      @ForAll @DoubleRange(min = -80, max = 80) double pitchDeg,
      @ForAll @DoubleRange(min = 0, max = 6000) double x,
      @ForAll @DoubleRange(min = 0, max = 4000) double y) {
    CameraView view = new CameraView(CAMERA, new Bearing(facingDeg), pitchDeg);
    Pixel pixel = new Pixel(x, y);

    Pixel back = view.pixelOf(view.azimuthAt(pixel), view.altitudeDegAt(pixel)).orElseThrow();

    assertThat(back.x()).isCloseTo(x, within(1e-6));
    assertThat(back.y()).isCloseTo(y, within(1e-6));
  }

  @Test
  void theMiddleOfThePictureLooksAlongTheAxis() {
    CameraView view = new CameraView(CAMERA, new Bearing(350), 12);
    Pixel middle = new Pixel(3000, 2000);

    assertThat(view.azimuthAt(middle).trueDeg()).isCloseTo(350, within(1e-12));
    assertThat(view.altitudeDegAt(middle)).isCloseTo(12, within(1e-12));
  }

  @Test
  void theWedgeOfALevelCameraIsItsHorizontalField() {
    CameraView view = new CameraView(CAMERA, new Bearing(10), 0);

    assertThat(view.wedgeDeg()).isCloseTo(CAMERA.horizontalFieldDeg(), within(1e-9));
    assertThat(Angles.turnDeg(view.leftEdge().trueDeg(), 10))
        .isCloseTo(CAMERA.horizontalFieldDeg() / 2, within(1e-9));
    assertThat(view.leftEdge().trueDeg()).isGreaterThan(300);
  }

  @Test
  void aPitchedCameraSpansMoreOfTheCompass() {
    assertThat(new CameraView(CAMERA, new Bearing(10), 40).wedgeDeg())
        .isCloseTo(
            2 * Math.toDegrees(Math.atan2(18, 35 * Math.cos(Math.toRadians(40)))), within(1e-9));
  }

  @Test
  void whatLiesBehindIsNotSeen() {
    CameraView view = new CameraView(CAMERA, new Bearing(0), 0);

    assertThat(view.pixelOf(new Bearing(180), 10)).isEmpty();
    assertThat(view.sunInFrame(new SunDirection(new Bearing(180), 10, 10))).isFalse();
  }

  @Test
  void impossibleValuesAreRefused() {
    assertThatThrownBy(() -> new CameraView(CAMERA, new Bearing(0), 90))
        .hasMessage("expected a pitch in (-90, 90) degrees, found 90.0");
    assertThatThrownBy(() -> new CameraView(CAMERA, new Bearing(0), Double.NaN))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> PinholeCamera.of(0, 4000, 35, Equivalence.DIAGONAL))
        .hasMessage("expected a picture of 1 pixel or more, found 0 x 4000");
    assertThatThrownBy(() -> PinholeCamera.of(6000, 4000, Double.NaN, Equivalence.DIAGONAL))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new PinholeCamera(1, 1, 1, 1))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new Pixel(Double.NaN, 0)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new TapErrors(-1, 0, 0)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new TapErrors(0, Double.NaN, 0))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
