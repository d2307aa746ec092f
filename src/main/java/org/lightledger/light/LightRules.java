package org.lightledger.light;

import java.util.List;
import org.lightledger.geo.Bearing;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunThreshold;

/**
 * When a light has which name. The thresholds are common practice of the trade, no source; they
 * stand here and nowhere else.
 *
 * <p>The relative bearing is the signed turn from the camera's facing to the sun: 0 means that the
 * camera looks towards the sun, so the subject, who faces the camera, is lit from behind.
 */
public final class LightRules {
  /** Up to this turn from the facing, either side, the light is backlit; degrees. */
  public static final double BACKLIT_UP_TO_DEG = 30;

  /** Up to this turn the light is rim; degrees. */
  public static final double RIM_UP_TO_DEG = 75;

  /** Up to this turn the light is side; degrees. */
  public static final double SIDE_UP_TO_DEG = 105;

  /** Up to this turn the light is three-quarter front, beyond it front; degrees. */
  public static final double THREE_QUARTER_FRONT_UP_TO_DEG = 150;

  /** Above this apparent altitude the light is overhead; degrees. */
  public static final double OVERHEAD_ABOVE_DEG = 60;

  /** At this geometric altitude of the centre the sun sets; degrees. */
  public static final double HORIZON_DEG = SunThreshold.HORIZON.geometricAltitudeDeg();

  /** Down to this geometric altitude it is twilight, below it dark; degrees: civil twilight. */
  public static final double TWILIGHT_DOWN_TO_DEG = SunThreshold.CIVIL.geometricAltitudeDeg();

  /** The turns at which the class changes, ascending, degrees. */
  public static final List<Double> TURN_THRESHOLDS_DEG =
      List.of(BACKLIT_UP_TO_DEG, RIM_UP_TO_DEG, SIDE_UP_TO_DEG, THREE_QUARTER_FRONT_UP_TO_DEG);

  private LightRules() {}

  /**
   * The light from an unobstructed sky.
   *
   * @param sun where the sun stands
   * @param facing where the camera looks
   * @return the class; never open shade, which only a skyline can tell
   */
  public static LightClass classify(SunDirection sun, Bearing facing) {
    return classify(
        sun.geometricAltitudeDeg(), sun.apparentAltitudeDeg(), facing.turnToDeg(sun.azimuth()));
  }

  /**
   * The light from an unobstructed sky, from plain angles.
   *
   * @param geometricAltitudeDeg the sun's altitude without refraction, degrees
   * @param apparentAltitudeDeg the sun's altitude as seen, degrees
   * @param relativeBearingDeg signed turn from the facing to the sun, degrees in (-180, 180]
   * @return the class; never open shade
   */
  public static LightClass classify(
      double geometricAltitudeDeg, double apparentAltitudeDeg, double relativeBearingDeg) {
    if (geometricAltitudeDeg < TWILIGHT_DOWN_TO_DEG) {
      return LightClass.DARK;
    }
    if (geometricAltitudeDeg < HORIZON_DEG) {
      return LightClass.TWILIGHT;
    }
    if (apparentAltitudeDeg > OVERHEAD_ABOVE_DEG) {
      return LightClass.OVERHEAD;
    }
    double turnDeg = Math.abs(relativeBearingDeg);
    if (turnDeg <= BACKLIT_UP_TO_DEG) {
      return LightClass.BACKLIT;
    }
    if (turnDeg <= RIM_UP_TO_DEG) {
      return LightClass.RIM;
    }
    if (turnDeg <= SIDE_UP_TO_DEG) {
      return LightClass.SIDE;
    }
    return turnDeg <= THREE_QUARTER_FRONT_UP_TO_DEG
        ? LightClass.THREE_QUARTER_FRONT
        : LightClass.FRONT;
  }

  /**
   * How far the sun may move on the sky before the class changes, from plain angles. A turn of the
   * sun is counted on the sky, that is times the cosine of its altitude.
   *
   * @param geometricAltitudeDeg the sun's altitude without refraction, degrees
   * @param apparentAltitudeDeg the sun's altitude as seen, degrees
   * @param relativeBearingDeg signed turn from the facing to the sun, degrees in (-180, 180]
   * @return degrees, 0 or more
   */
  public static double marginDeg(
      double geometricAltitudeDeg, double apparentAltitudeDeg, double relativeBearingDeg) {
    if (geometricAltitudeDeg < TWILIGHT_DOWN_TO_DEG) {
      return TWILIGHT_DOWN_TO_DEG - geometricAltitudeDeg;
    }
    if (geometricAltitudeDeg < HORIZON_DEG) {
      return Math.min(
          HORIZON_DEG - geometricAltitudeDeg, geometricAltitudeDeg - TWILIGHT_DOWN_TO_DEG);
    }
    if (apparentAltitudeDeg > OVERHEAD_ABOVE_DEG) {
      return apparentAltitudeDeg - OVERHEAD_ABOVE_DEG;
    }
    double turnDeg = Math.abs(relativeBearingDeg);
    double nearestThresholdDeg = Double.POSITIVE_INFINITY;
    for (double thresholdDeg : TURN_THRESHOLDS_DEG) {
      nearestThresholdDeg = Math.min(nearestThresholdDeg, Math.abs(turnDeg - thresholdDeg));
    }
    double onTheSkyDeg = nearestThresholdDeg * Math.cos(Math.toRadians(apparentAltitudeDeg));
    return Math.min(
        onTheSkyDeg,
        Math.min(OVERHEAD_ABOVE_DEG - apparentAltitudeDeg, geometricAltitudeDeg - HORIZON_DEG));
  }
}
