package org.lightledger.correction;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Shot;
import org.lightledger.shot.view.FacingFromPicture;
import org.lightledger.shot.view.PinholeCamera;
import org.lightledger.shot.view.Sighting;
import org.lightledger.shot.view.TapErrors;
import org.lightledger.sun.SunDirection;

/** Which way a shot looks by what was tapped in its picture. */
final class FacingByTaps {
  /**
   * How far a tap lies beside what it means, as a part of the picture's width: 2 pixels where the
   * picture fills a phone's screen of 390, 4 where it is shown 800 wide; own choice.
   */
  private static final double TAP_PART = 0.005;

  private FacingByTaps() {}

  static Sighting sight(Evidence evidence, @Nullable SunDirection sun, Taps taps) {
    if (sun == null) {
      return new Sighting.Refused(
          "Where the sun stood is known once the shot has a time and a place; settle them first.");
    }
    Optional<PinholeCamera> found = PinholeCamera.of(evidence);
    if (found.isEmpty()) {
      return new Sighting.Refused(
          "The file does not tell how wide the lens saw (its focal length in 35 mm equivalent), so"
              + " the picture can not be measured; type the bearing.");
    }
    PinholeCamera camera = found.get();
    TapErrors errors = TapErrors.handHeld(TAP_PART * camera.widthPx());
    if (taps instanceof Taps.Sun tap) {
      return FacingFromPicture.bySun(camera, tap.disc(), sun, errors);
    }
    if (taps instanceof Taps.OwnShadow tap) {
      return FacingFromPicture.byOwnShadow(camera, tap.head(), sun, errors);
    }
    Taps.Shadow shadow = (Taps.Shadow) taps;
    return FacingFromPicture.byShadow(
        camera, shadow.foot(), shadow.tip(), shadow.horizon(), sun, errors);
  }

  static Shot.FacingSource source(Taps taps) {
    return taps instanceof Taps.Sun
        ? Shot.FacingSource.SUN_IN_PICTURE
        : Shot.FacingSource.SHADOW_IN_PICTURE;
  }
}
