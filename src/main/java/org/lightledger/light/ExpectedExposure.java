package org.lightledger.light;

import java.util.Locale;
import org.lightledger.geo.Bearing;
import org.lightledger.sun.SunDirection;

/**
 * The exposure to be expected of a subject that looks to the camera: by an incident meter, once in
 * direct sun and once in open shade. Where the sun is down both are the same.
 *
 * @param sunApparentAltitudeDeg the sun's altitude with refraction, degrees in [-90, 90]
 * @param inSunEv100 exposure value at ISO 100 in direct sun
 * @param inShadeEv100 exposure value at ISO 100 in open shade
 */
public record ExpectedExposure(
    double sunApparentAltitudeDeg, double inSunEv100, double inShadeEv100) {
  /**
   * How far a shot's own exposure value lies from the expected one, one standard deviation, stops:
   * own choice, from its parts. A camera meters what comes back from the scene, of which the
   * equation supposes a mean of 16 percent: 0.7, which makes a scene of 8 or 32 percent a matter of
   * one in six. The daylight formulas, off by a factor of two at times: 0.5. A background in
   * another light than the subject: 0.5. The photographer's compensation: 0.3. Together 1.0.
   */
  public static final double SIGMA_STOPS = 1.0;

  /**
   * One of both has to be this many times as likely as the other to be suggested: own choice, as in
   * a statistical test at five percent.
   */
  public static final double LIKELIER_TIMES = 19.0;

  /** Farther from both than this, neither is suggested, standard deviations: own choice. */
  public static final double FARTHEST_SIGMAS = 3.0;

  /**
   * Checks the numbers.
   *
   * @throws IllegalArgumentException when one is not finite or the sun gives less than the shade
   */
  public ExpectedExposure {
    if (!(Double.isFinite(inShadeEv100)
        && inSunEv100 >= inShadeEv100
        && inSunEv100 < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "expected finite exposure values, in the sun not below those in the shade, found %s and %s"
              .formatted(inSunEv100, inShadeEv100));
    }
    if (!(sunApparentAltitudeDeg >= -90.0 && sunApparentAltitudeDeg <= 90.0)) {
      throw new IllegalArgumentException(
          "expected an altitude in [-90, 90] degrees, found " + sunApparentAltitudeDeg);
    }
  }

  /**
   * What to expect.
   *
   * @param sun where it stands
   * @param facing where the camera looks; the subject looks back
   * @param sky how much of it is covered
   * @return the exposure in the sun and in the shade
   */
  public static ExpectedExposure of(SunDirection sun, Bearing facing, SkyCondition sky) {
    Daylight light = Daylight.of(sun.apparentAltitudeDeg(), sky);
    double turnDeg = Bearing.of(facing.trueDeg() + 180.0).turnToDeg(sun.azimuth());
    return new ExpectedExposure(
        sun.apparentAltitudeDeg(),
        ExposureValues.ev100(light.subjectLux(turnDeg)),
        ExposureValues.ev100(light.shadeVerticalLux()));
  }

  /**
   * What a shot's own exposure value suggests. The difference of sun and shade is smallest with the
   * sun behind the subject, and there most shots tell nothing. Without knowledge of flash, which
   * belongs to the caller.
   *
   * @param measuredEv100 exposure value at ISO 100 by the settings of the shot, finite
   * @return the suggestion, its reason and its numbers
   * @throws IllegalArgumentException when the value is not finite
   */
  public SunSuggestion suggest(double measuredEv100) {
    if (!Double.isFinite(measuredEv100)) {
      throw new IllegalArgumentException("expected a finite EV100, found " + measuredEv100);
    }
    double overSun = measuredEv100 - inSunEv100;
    double overShade = measuredEv100 - inShadeEv100;
    double logLikelier =
        (overShade * overShade - overSun * overSun) / (2.0 * SIGMA_STOPS * SIGMA_STOPS);
    String numbers =
        String.format(
            Locale.ROOT,
            "EV100 %.1f; expected are %.1f in direct sun and %.1f in open shade, give or take"
                + " %.0f: ",
            measuredEv100,
            inSunEv100,
            inShadeEv100,
            SIGMA_STOPS);
    SunVerdict verdict = SunVerdict.CANNOT_TELL;
    String why;
    if (sunApparentAltitudeDeg <= 0.0) {
      why = "the sun is down";
    } else if (overSun > FARTHEST_SIGMAS * SIGMA_STOPS) {
      why = "brighter than either";
    } else if (overShade < -FARTHEST_SIGMAS * SIGMA_STOPS) {
      why = "darker than either, as indoors or at a very dark subject";
    } else if (Math.abs(logLikelier) < Math.log(LIKELIER_TIMES)) {
      why = "either may be";
    } else if (logLikelier > 0.0) {
      verdict = SunVerdict.DIRECT_SUN;
      why = "too bright for shade";
    } else {
      verdict = SunVerdict.SHADE;
      why = "too dark for direct sun, so shade, or clouds before the sun";
    }
    return new SunSuggestion(verdict, numbers + why, overSun, overShade);
  }
}
