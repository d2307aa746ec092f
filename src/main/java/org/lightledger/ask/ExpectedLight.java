package org.lightledger.ask;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.light.CameraSetting;
import org.lightledger.light.Daylight;
import org.lightledger.light.ExpectedExposure;
import org.lightledger.light.LightClass;
import org.lightledger.light.SkyCondition;
import org.lightledger.sun.SunDirection;

/**
 * The exposure to be expected of the subject at the moment of an answer.
 *
 * @param ev100 exposure value at ISO 100, by an incident meter at the subject
 * @param setting a camera setting to begin with; null when it is too dark for any
 * @param contrastStops by how many stops the side of a subject that faces the sun is lit more than
 *     the one that faces away; null when no direct sun is to be expected
 * @param basis what the number rests on, one sentence
 */
public record ExpectedLight(
    double ev100, @Nullable CameraSetting setting, @Nullable Double contrastStops, String basis) {
  /** The focal ratio of the setting: own choice, one that most portrait lenses have. */
  public static final double F_NUMBER = 2.8;

  /** A setting farther off than this is none, stops: half of the third stops that cameras set. */
  private static final double OFF_STOPS = 0.2;

  /**
   * What to expect.
   *
   * @param answer the answer
   * @param sky what the sky is like
   * @return the exposure, in direct sun unless the sun is known not to reach the spot
   */
  public static ExpectedLight of(Answer answer, Sky sky) {
    return of(answer.sun(), answer.facing(), answer.light(), answer.directSun(), sky);
  }

  /**
   * What to expect.
   *
   * @param sun where the sun stands
   * @param facing where the camera looks
   * @param light the class of the light
   * @param directSun whether the sun reaches the spot; null while that is not known
   * @param sky what the sky is like
   * @return the exposure, in direct sun unless the sun is known not to reach the spot
   */
  static ExpectedLight of(
      SunDirection sun, Bearing facing, LightClass light, @Nullable Boolean directSun, Sky sky) {
    SkyCondition condition = sky == Sky.OVERCAST ? SkyCondition.OVERCAST : SkyCondition.CLEAR;
    ExpectedExposure exposure = ExpectedExposure.of(sun, facing, condition);
    boolean down = light == LightClass.TWILIGHT || light == LightClass.DARK;
    boolean shade = light == LightClass.OPEN_SHADE;
    double ev100 = shade || down ? exposure.inShadeEv100() : exposure.inSunEv100();
    CameraSetting setting = CameraSetting.near(ev100, F_NUMBER);
    return new ExpectedLight(
        ev100,
        Math.abs(setting.overStops()) <= OFF_STOPS ? setting : null,
        shade || down ? null : Daylight.of(sun.apparentAltitudeDeg(), condition).sidesStops(),
        String.format(
            Locale.ROOT,
            "A mean for the sun's altitude, %s and the way the subject faces, give or take a stop;"
                + " meter there.",
            basis(directSun, sky, down, shade)));
  }

  private static String basis(@Nullable Boolean directSun, Sky sky, boolean down, boolean shade) {
    if (sky == Sky.OVERCAST) {
      return "an overcast sky";
    }
    if (down) {
      return "a clear sky after the sun is down, without lamps or moon";
    }
    if (shade) {
      return "open shade under a clear sky";
    }
    return directSun == null
        ? "a clear sky, direct sun if it reaches the spot, which is not known"
        : "direct sun from a clear sky";
  }

  /**
   * The contrast between the sides of the subject.
   *
   * @return for example "2.6 stops between the sunlit and the unlit side"
   */
  public String contrastWords() {
    Double stops = contrastStops;
    return stops == null
        ? "little contrast: no direct sun"
        : String.format(Locale.ROOT, "%.1f stops between the sunlit and the unlit side", stops);
  }

  /**
   * The number and the setting.
   *
   * @return for example "EV100 10.3: 1/200 s at f/2.8, ISO 100"
   */
  public String words() {
    String value = String.format(Locale.ROOT, "EV100 %.1f", ev100);
    CameraSetting camera = setting;
    return camera == null
        ? value + ": too dark or too bright for a usual setting"
        : String.format(
            Locale.ROOT,
            "%s: %s s at f/%s, ISO %d",
            value,
            camera.shutter(),
            camera.fNumber(),
            camera.isoSpeed());
  }
}
