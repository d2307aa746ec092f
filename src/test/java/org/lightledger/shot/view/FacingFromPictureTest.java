package org.lightledger.shot.view;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import java.util.Random;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.shot.view.PinholeCamera.Equivalence;
import org.lightledger.sun.SunDirection;

class FacingFromPictureTest {
  private static final TapErrors NONE = new TapErrors(0, 0, 0);

  /** Rounding only: the arc sine loses half of the digits where the sun is nearly overhead. */
  private static final double EXACT_DEG = 1e-6;

  /** What must be shown of a tapped sun. */
  private static final double SHOWN_DEG = 0.5;

  private static SunDirection sun(double azimuthDeg, double altitudeDeg) {
    return new SunDirection(Bearing.of(azimuthDeg), altitudeDeg, altitudeDeg);
  }

  private static PinholeCamera exact(double focalMm, boolean upright) {
    int width = upright ? 4000 : 6000;
    return new PinholeCamera(
        width,
        10_000 - width,
        PinholeCamera.of(6000, 4000, focalMm, Equivalence.DIAGONAL).focalLengthPx(),
        0);
  }

  private static Sighting.Found found(Sighting sighting) {
    assertThat(sighting).isInstanceOf(Sighting.Found.class);
    return (Sighting.Found) sighting;
  }

  private static String refused(Sighting sighting) {
    assertThat(sighting).isInstanceOf(Sighting.Refused.class);
    return ((Sighting.Refused) sighting).reason();
  }

  private static double offDeg(Sighting.Found found, Scene scene) {
    return Math.abs(found.facing().turnToDeg(Bearing.of(scene.facingDeg())));
  }

  /** Whether the other camera that sees the tap at this altitude looks up or down by 60 at most. */
  private static boolean twoFacings(Scene scene, Pixel tap) {
    double upDeg = Math.toDegrees(Math.atan(scene.camera().ray(tap).up()));
    return Math.abs(scene.pitchDeg() + 2 * upDeg) >= 119.999;
  }

  @Property(tries = 5000)
  void theTappedSunGivesTheFacing(
      @ForAll @DoubleRange(min = 14, max = 200) double focalMm,
      @ForAll boolean upright,
      @ForAll @DoubleRange(min = 0, max = 359.9) double facingDeg,
      @ForAll @DoubleRange(min = -59.9, max = 59.9) double pitchDeg,
      @ForAll @DoubleRange(min = 0, max = 1) double across,
      @ForAll @DoubleRange(min = 0, max = 1) double down) {
    Scene scene = new Scene(exact(focalMm, upright), facingDeg, pitchDeg);
    SunDirection sun = sunAt(scene, across, down);
    Assume.that(sun.apparentAltitudeDeg() > -2);
    Pixel tap = tap(scene, sun);
    Assume.that(!twoFacings(scene, tap));

    Sighting.Found found = found(FacingFromPicture.bySun(scene.camera(), tap, sun, NONE));

    assertThat(offDeg(found, scene)).isLessThan(EXACT_DEG);
    assertThat(found.pitchDeg()).isCloseTo(pitchDeg, within(EXACT_DEG));
    assertThat(found.errorDeg()).isZero();
  }

  /** A sun that is in the picture, so far across and down. */
  private static SunDirection sunAt(Scene scene, double across, double down) {
    CameraView view =
        new CameraView(scene.camera(), Bearing.of(scene.facingDeg()), scene.pitchDeg());
    Pixel place =
        new Pixel(
            0.5 + across * (scene.camera().widthPx() - 1),
            0.5 + down * (scene.camera().heightPx() - 1));
    return sun(view.azimuthAt(place).trueDeg(), view.altitudeDegAt(place));
  }

  private static Pixel tap(Scene scene, SunDirection sun) {
    return scene
        .see(Scene.direction(sun.azimuth().trueDeg(), sun.apparentAltitudeDeg()))
        .orElseThrow();
  }

  /** Twenty-four megapixels, a sun up to 60 degrees high, three pixels off in both directions. */
  @Property(tries = 5000)
  void aTapThatIsThreePixelsOffStaysWithinHalfADegree(
      @ForAll @DoubleRange(min = 18, max = 200) double focalMm,
      @ForAll boolean upright,
      @ForAll @DoubleRange(min = 0, max = 359.9) double facingDeg,
      @ForAll @DoubleRange(min = -30, max = 40) double pitchDeg,
      @ForAll @DoubleRange(min = 0, max = 1) double across,
      @ForAll @DoubleRange(min = 0, max = 1) double down,
      @ForAll @DoubleRange(min = -3, max = 3) double offX,
      @ForAll @DoubleRange(min = -3, max = 3) double offY) {
    Scene scene = new Scene(exact(focalMm, upright), facingDeg, pitchDeg);
    SunDirection sun = sunAt(scene, across, down);
    Assume.that(sun.apparentAltitudeDeg() > -2 && sun.apparentAltitudeDeg() < 60);
    Pixel tap = tap(scene, sun);
    Assume.that(!twoFacings(scene, tap));
    Pixel off =
        new Pixel(
            Math.max(0, Math.min(scene.camera().widthPx(), tap.x() + offX)),
            Math.max(0, Math.min(scene.camera().heightPx(), tap.y() + offY)));

    Sighting.Found found =
        found(FacingFromPicture.bySun(scene.camera(), off, sun, new TapErrors(3, 0, 0)));

    assertThat(offDeg(found, scene)).isLessThan(SHOWN_DEG);
    // Both directions off at once is the square root of two of their sum in quadrature.
    assertThat(offDeg(found, scene)).isLessThan(1.01 * Math.sqrt(2) * found.errorDeg() + EXACT_DEG);
  }

  /** The stated error covers a camera that was not level; a twentieth for what is not linear. */
  @Property
  void theErrorCoversTheRoll(
      @ForAll @DoubleRange(min = 18, max = 200) double focalMm,
      @ForAll @DoubleRange(min = -20, max = 30) double pitchDeg,
      @ForAll @DoubleRange(min = 0.1, max = 0.9) double across,
      @ForAll @DoubleRange(min = 0.1, max = 0.9) double down,
      @ForAll @DoubleRange(min = -2, max = 2) double rollDeg) {
    Scene level = new Scene(exact(focalMm, false), 100, pitchDeg);
    SunDirection sun = sunAt(level, across, down);
    Assume.that(sun.apparentAltitudeDeg() > 0 && sun.apparentAltitudeDeg() < 60);
    Scene rolled = new Scene(level.camera(), 100, pitchDeg, rollDeg, 1.6);
    Optional<Pixel> tap =
        rolled.see(Scene.direction(sun.azimuth().trueDeg(), sun.apparentAltitudeDeg()));
    Assume.that(tap.isPresent());

    Sighting.Found found =
        found(FacingFromPicture.bySun(level.camera(), tap.get(), sun, new TapErrors(0, 2, 0)));

    assertThat(offDeg(found, level)).isLessThan(1.05 * found.errorDeg() + EXACT_DEG);
  }

  /** A focal length that was rounded to 24 mm, and the sun in the corner. */
  @Test
  void theErrorCoversTheRoundingOfTheFocalLength() {
    PinholeCamera told = PinholeCamera.of(6000, 4000, 24, Equivalence.DIAGONAL);
    Scene scene = new Scene(exact(24.49, false), 200, 10);
    SunDirection sun = sunAt(scene, 0.97, 0.1);

    Sighting.Found found = found(FacingFromPicture.bySun(told, tap(scene, sun), sun, NONE));

    assertThat(offDeg(found, scene)).isBetween(0.3, found.errorDeg());
  }

  @Property
  void theCamerasOwnShadowGivesTheFacing(
      @ForAll @DoubleRange(min = 14, max = 100) double focalMm,
      @ForAll @DoubleRange(min = 0, max = 359.9) double facingDeg,
      @ForAll @DoubleRange(min = -40, max = 0) double pitchDeg,
      @ForAll @DoubleRange(min = 0.01, max = 0.99) double across,
      @ForAll @DoubleRange(min = 0.6, max = 0.99) double down) {
    Scene scene = new Scene(exact(focalMm, false), facingDeg, pitchDeg);
    SunDirection opposite = sunAt(scene, across, down);
    Pixel tap = tap(scene, opposite);
    Assume.that(!twoFacings(scene, tap) && opposite.apparentAltitudeDeg() < -0.01);
    SunDirection sun = sun(opposite.azimuth().trueDeg() + 180, -opposite.apparentAltitudeDeg());

    Sighting.Found found = found(FacingFromPicture.byOwnShadow(scene.camera(), tap, sun, NONE));

    assertThat(offDeg(found, scene)).isLessThan(EXACT_DEG);
    assertThat(found.pitchDeg()).isCloseTo(pitchDeg, within(EXACT_DEG));
  }

  /** A post of 1.8 m and its shadow, seen by a camera of any height and pitch. */
  private record Post(Pixel foot, Pixel tip, Pixel horizon, SunDirection sun) {
    static Optional<Post> seen(Scene scene, Random random) {
      double sunAzimuthDeg = random.nextDouble() * 360;
      double sunAltitudeDeg = 10 + random.nextDouble() * 50;
      double wayM = 3 + random.nextDouble() * 7;
      double bearing = Math.toRadians(scene.facingDeg() + random.nextDouble() * 40 - 20);
      double shadowM = 1.8 / Math.tan(Math.toRadians(sunAltitudeDeg));
      double away = Math.toRadians(sunAzimuthDeg + 180);
      double east = wayM * Math.sin(bearing);
      double north = wayM * Math.cos(bearing);
      Optional<Pixel> foot = scene.see(east, north, 0);
      Optional<Pixel> tip =
          scene.see(east + shadowM * Math.sin(away), north + shadowM * Math.cos(away), 0);
      Optional<Pixel> horizon =
          scene.see(Scene.direction(scene.facingDeg() + random.nextDouble() * 20 - 10, 0));
      return foot.isPresent() && tip.isPresent() && horizon.isPresent()
          ? Optional.of(
              new Post(
                  foot.get(),
                  tip.get(),
                  horizon.get(),
                  FacingFromPictureTest.sun(sunAzimuthDeg, sunAltitudeDeg)))
          : Optional.empty();
    }
  }

  @Test
  void aShadowAndTheHorizonGiveTheFacing() {
    Random random = new Random(20260103);
    int seen = 0;
    for (int i = 0; i < 5000; i++) {
      Scene scene =
          new Scene(
              exact(18 + random.nextDouble() * 30, random.nextBoolean()),
              random.nextDouble() * 360,
              random.nextDouble() * 30 - 20,
              0,
              1 + random.nextDouble() * 2);
      Optional<Post> post = Post.seen(scene, random);
      if (post.isPresent()) {
        Sighting.Found found =
            found(
                FacingFromPicture.byShadow(
                    scene.camera(),
                    post.get().foot(),
                    post.get().tip(),
                    post.get().horizon(),
                    post.get().sun(),
                    NONE));

        assertThat(offDeg(found, scene)).isLessThan(EXACT_DEG);
        assertThat(found.pitchDeg()).isCloseTo(scene.pitchDeg(), within(EXACT_DEG));
        seen++;
      }
    }
    assertThat(seen).isGreaterThan(1000);
  }

  /** Without a horizon a pitch of up to five degrees goes into the error; a fifth not linear. */
  @Test
  void aShadowWithoutAHorizonStatesWhatThePitchCosts() {
    Random random = new Random(20260104);
    int seen = 0;
    double worstDeg = 0;
    for (int i = 0; i < 5000; i++) {
      Scene scene =
          new Scene(
              exact(18 + random.nextDouble() * 30, false),
              random.nextDouble() * 360,
              random.nextDouble() * 10 - 5);
      Optional<Post> post = Post.seen(scene, random);
      if (post.isPresent()
          && FacingFromPicture.byShadow(
                  scene.camera(),
                  post.get().foot(),
                  post.get().tip(),
                  null,
                  post.get().sun(),
                  new TapErrors(0, 0, 5))
              instanceof Sighting.Found found) {
        assertThat(offDeg(found, scene)).isLessThan(1.2 * found.errorDeg() + EXACT_DEG);
        assertThat(found.pitchDeg()).isZero();
        worstDeg = Math.max(worstDeg, offDeg(found, scene));
        seen++;
      }
    }
    assertThat(seen).isGreaterThan(1000);
    assertThat(worstDeg).isGreaterThan(1);
  }

  @Test
  void aSunThatHasSetIsNotInThePicture() {
    assertThat(
            refused(
                FacingFromPicture.bySun(
                    exact(35, false), new Pixel(3000, 1000), sun(280, -12.34), NONE)))
        .isEqualTo(
            "At the time and place of the shot the sun stood 12.3 degrees below the horizon; one of"
                + " the two is wrong.");
    assertThat(
            refused(
                FacingFromPicture.byOwnShadow(
                    exact(35, false), new Pixel(3000, 3000), sun(280, 0), NONE)))
        .contains("gave no shadow");
    assertThat(
            refused(
                FacingFromPicture.byShadow(
                    exact(35, false),
                    new Pixel(3000, 3000),
                    new Pixel(3100, 3000),
                    null,
                    sun(280, -0.1),
                    NONE)))
        .contains("gave no shadow");
  }

  /** At the right edge of 18 mm, 45 degrees off the axis, nothing stands higher than 45 degrees. */
  @Test
  void aSunHigherThanTheEdgeOfThePictureCanSeeIsRefused() {
    PinholeCamera camera = exact(18, false);
    Pixel edge = new Pixel(6000, 2000);

    assertThat(refused(FacingFromPicture.bySun(camera, edge, sun(180, 45.1), NONE)))
        .isEqualTo(
            "No camera that is held level sees something 45.1 degrees above the horizon there; the"
                + " time, the place or the focal length of the shot is wrong.");
    assertThat(refused(FacingFromPicture.bySun(camera, edge, sun(180, 44.9), NONE)))
        .isEqualTo(
            "The camera would have looked 87 degrees up; the time, the place or the focal length of"
                + " the shot is wrong, or it has no facing.");
  }

  @Test
  void aCameraThatLooksPastTheZenithHasTwoFacings() {
    assertThat(
            refused(
                FacingFromPicture.bySun(exact(18, true), new Pixel(2000, 0), sun(180, 85), NONE)))
        .isEqualTo("Two facings fit a sun so high in the picture; give the bearing by hand.");
  }

  @Test
  void tapsOutsideThePictureAreRefused() {
    PinholeCamera camera = exact(35, false);
    Pixel inside = new Pixel(3000, 3000);
    Pixel outside = new Pixel(3000, 4000.1);

    assertThat(refused(FacingFromPicture.bySun(camera, outside, sun(180, 10), NONE)))
        .isEqualTo("The tap lies outside the picture; tap again.");
    assertThat(
            refused(FacingFromPicture.byShadow(camera, outside, inside, null, sun(180, 10), NONE)))
        .isEqualTo("The tap lies outside the picture; tap again.");
    assertThat(
            refused(FacingFromPicture.byShadow(camera, inside, outside, null, sun(180, 10), NONE)))
        .isEqualTo("The tap lies outside the picture; tap again.");
    assertThat(
            refused(
                FacingFromPicture.byShadow(
                    camera, inside, new Pixel(1, 3000), outside, sun(180, 10), NONE)))
        .isEqualTo("The tap lies outside the picture; tap again.");
  }

  @Test
  void aShadowIsTwoPlacesOnTheGround() {
    PinholeCamera camera = exact(35, false);
    Pixel ground = new Pixel(3000, 3000);
    String message =
        "Foot and tip of a shadow must be two places below the horizon; tap them again, and the"
            + " horizon where it is seen.";

    assertThat(
            refused(FacingFromPicture.byShadow(camera, ground, ground, null, sun(180, 10), NONE)))
        .isEqualTo(message);
    assertThat(
            refused(
                FacingFromPicture.byShadow(
                    camera, ground, new Pixel(3000, 1999), null, sun(180, 10), NONE)))
        .isEqualTo(message);
    assertThat(
            refused(
                FacingFromPicture.byShadow(
                    camera, new Pixel(3000, 2000), ground, null, sun(180, 10), NONE)))
        .isEqualTo(message);
  }

  @Test
  void tapsThatTellNothingAreRefused() {
    assertThat(
            refused(
                FacingFromPicture.byShadow(
                    exact(35, false),
                    new Pixel(3000, 3000),
                    new Pixel(3002, 3001),
                    null,
                    sun(180, 10),
                    TapErrors.handHeld(3))))
        .isEqualTo(
            "From these taps the facing can not be told to 45 degrees; give the bearing by hand.");
  }
}
