package org.lightledger.ask;

import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;
import org.lightledger.light.LightRules;
import org.lightledger.skyline.Clearance;
import org.lightledger.skyline.Skyline;
import org.lightledger.sun.SunDirection;

/**
 * The light at a spot along a facing with the sun in one place, under what is known of the skyline.
 *
 * @param light the class; open shade only where something known hides the sun
 * @param directSun whether the sun reaches the spot; null while that is not known
 * @param clearance how the sun stands to the skyline; null while nothing is known there, or the sun
 *     is below the horizon
 * @param marginDeg how far the sun or the skyline may move before the class changes, degrees, 0 or
 *     more
 */
public record SpotLight(
    LightClass light,
    @Nullable Boolean directSun,
    @Nullable Clearance clearance,
    double marginDeg) {

  /**
   * Tells the light.
   *
   * @param sun where the sun stands
   * @param facing where the camera looks
   * @param skyline what stands around the spot; null when nothing is known
   * @return the light under a clear sky
   */
  public static SpotLight of(SunDirection sun, Bearing facing, @Nullable Skyline skyline) {
    return of(sun, facing, skyline, Sky.CLEAR);
  }

  /**
   * Tells the light.
   *
   * @param sun where the sun stands
   * @param facing where the camera looks
   * @param skyline what stands around the spot; null when nothing is known
   * @param sky what the sky is like; under an overcast one all light with the sun up is open shade
   * @return the light
   */
  public static SpotLight of(SunDirection sun, Bearing facing, @Nullable Skyline skyline, Sky sky) {
    double turnDeg = facing.turnToDeg(sun.azimuth());
    LightClass open =
        LightRules.classify(sun.geometricAltitudeDeg(), sun.apparentAltitudeDeg(), turnDeg);
    double openMarginDeg =
        LightRules.marginDeg(sun.geometricAltitudeDeg(), sun.apparentAltitudeDeg(), turnDeg);
    if (open == LightClass.TWILIGHT || open == LightClass.DARK) {
      return new SpotLight(open, false, null, openMarginDeg);
    }
    double aboveHorizonDeg = sun.geometricAltitudeDeg() - LightRules.HORIZON_DEG;
    if (sky == Sky.OVERCAST) {
      return new SpotLight(LightClass.OPEN_SHADE, false, null, aboveHorizonDeg);
    }
    if (skyline == null || !skyline.knownAt(sun.azimuth().trueDeg())) {
      return new SpotLight(open, null, null, openMarginDeg);
    }
    Clearance clearance = skyline.clearance(sun);
    if (clearance.direct()) {
      return new SpotLight(
          open,
          clearance.lowerBoundOnly() ? null : Boolean.TRUE,
          clearance,
          Math.min(openMarginDeg, clearance.marginDeg()));
    }
    return new SpotLight(
        LightClass.OPEN_SHADE, false, clearance, Math.min(aboveHorizonDeg, -clearance.marginDeg()));
  }

  /**
   * The class alone.
   *
   * @param sun where the sun stands
   * @param facing where the camera looks
   * @param skyline what stands around the spot; null when nothing is known
   * @return the class under a clear sky
   */
  public static LightClass classOf(SunDirection sun, Bearing facing, @Nullable Skyline skyline) {
    return classOf(sun, facing, skyline, Sky.CLEAR);
  }

  /** The class alone, under any sky. */
  static LightClass classOf(SunDirection sun, Bearing facing, @Nullable Skyline skyline, Sky sky) {
    LightClass open = LightRules.classify(sun, facing);
    boolean up = open != LightClass.TWILIGHT && open != LightClass.DARK;
    return up && (sky == Sky.OVERCAST || hidden(sun, skyline)) ? LightClass.OPEN_SHADE : open;
  }

  private static boolean hidden(SunDirection sun, @Nullable Skyline skyline) {
    double azimuthDeg = sun.azimuth().trueDeg();
    return skyline != null
        && skyline.knownAt(azimuthDeg)
        && sun.apparentAltitudeDeg() <= skyline.altitudeDegAt(azimuthDeg);
  }

  /**
   * Whether the answer rests on a known skyline.
   *
   * @return true when it is known whether the sun reaches the spot, and it is above the horizon
   */
  boolean modelled() {
    return clearance != null && directSun != null;
  }
}
