package org.lightledger.light;

/**
 * The light of sun and sky that is to be expected outdoors. The formulas give means: at a given
 * moment the light may be twice or half of it.
 *
 * <p>Under a clear sky the total on level ground is that of US Naval Observatory Circular 171 from
 * the zenith to the end of twilight, and the daylight availability formulas of {@link SkyCondition}
 * say which part of it is the sun's: their own totals are up to half a stop too bright for a sun
 * below 10 degrees, and more on the horizon. Under clouds their own totals hold by day, and
 * twilight goes on from their value at the horizon as the clear one does; that is 0.4 of the clear
 * one, where the circular takes a half for thin and a third for average clouds. Joining them so is
 * own choice.
 *
 * <p>The clear total is within a quarter of a stop of Brown's measured charts while the sun is up,
 * within a third down to -10 degrees, and within 1.3 in the deep twilight below. The moon and lamps
 * are left out.
 *
 * @param sunApparentAltitudeDeg the sun's altitude with refraction, degrees in [-90, 90]
 * @param directNormalLux the sun on a surface that faces it, lux; 0 when it is down or clouded
 * @param skyHorizontalLux the sky on level ground, lux
 */
public record Daylight(
    double sunApparentAltitudeDeg, double directNormalLux, double skyHorizontalLux) {
  /**
   * How much of its light the ground gives back: 0.2, common practice for grass, soil and pavement.
   */
  public static final double GROUND_REFLECTANCE = 0.2;

  /**
   * Checks the light.
   *
   * @throws IllegalArgumentException when a number is out of its interval or none
   */
  public Daylight {
    if (!(sunApparentAltitudeDeg >= -90.0 && sunApparentAltitudeDeg <= 90.0)) {
      throw new IllegalArgumentException(
          "expected an altitude in [-90, 90] degrees, found " + sunApparentAltitudeDeg);
    }
    requireLux("from the sun", directNormalLux);
    requireLux("from the sky", skyHorizontalLux);
  }

  /**
   * The light by the altitude of the sun.
   *
   * @param sunApparentAltitudeDeg with refraction, degrees in [-90, 90]
   * @param sky how much of it is covered
   * @return the light to be expected
   * @throws IllegalArgumentException when the altitude is out of its interval or not a number
   */
  public static Daylight of(double sunApparentAltitudeDeg, SkyCondition sky) {
    double directLux = sky.directNormalLux(sunApparentAltitudeDeg);
    double skyLux = sky.skyHorizontalLux(sunApparentAltitudeDeg);
    if (sky == SkyCondition.CLEAR) {
      double formulaLux =
          directLux * Math.max(0.0, Math.sin(Math.toRadians(sunApparentAltitudeDeg))) + skyLux;
      double scale = NaturalLight.horizontalLux(sunApparentAltitudeDeg) / formulaLux;
      return new Daylight(sunApparentAltitudeDeg, directLux * scale, skyLux * scale);
    }
    if (sunApparentAltitudeDeg < 0.0) {
      skyLux *=
          NaturalLight.horizontalLux(sunApparentAltitudeDeg) / NaturalLight.horizontalLux(0.0);
    }
    return new Daylight(sunApparentAltitudeDeg, directLux, skyLux);
  }

  /**
   * Sun and sky on level ground.
   *
   * @return lux
   */
  public double horizontalLux() {
    return directNormalLux * Math.max(0.0, sine()) + skyHorizontalLux;
  }

  /**
   * An upright flat surface in the sun: the sun by the cosine, half of the sky and half of what the
   * sunlit ground gives back. Own choice: sky and ground are taken to be equally bright all over,
   * though the sky is brighter around the sun.
   *
   * @param turnDeg the turn from where the surface looks to the sun's azimuth, degrees
   * @return lux
   */
  public double verticalLux(double turnDeg) {
    return directNormalLux * Math.max(0.0, incidence(turnDeg)) + aroundLux(horizontalLux());
  }

  /**
   * A round subject in the sun, as an incident meter with a dome sees it that is held at the
   * subject and pointed to the camera: half of one plus the cosine of the sun (a cardioid, the
   * response of hemispherical receptors in ISO 2720), half of the sky, half of the sunlit ground.
   * It gives the trade's rule of one stop less for side light and two for back light within half a
   * stop while the sun stands between 30 and 50 degrees; a lower sun leaves a back less.
   *
   * @param turnDeg the turn from where the subject looks to the sun's azimuth, degrees: 0 for a sun
   *     behind the camera, 180 for one behind the subject
   * @return lux
   */
  public double subjectLux(double turnDeg) {
    return directNormalLux * (1.0 + incidence(turnDeg)) / 2.0 + aroundLux(horizontalLux());
  }

  /**
   * Level ground in open shade: the sky alone, all of it. A wall that makes the shade hides half of
   * it and gives some back.
   *
   * @return lux
   */
  public double shadeHorizontalLux() {
    return skyHorizontalLux;
  }

  /**
   * An upright surface or a subject in open shade: half of the sky and half of what the shaded
   * ground gives back.
   *
   * @return lux
   */
  public double shadeVerticalLux() {
    return aroundLux(skyHorizontalLux);
  }

  /**
   * The lighting ratio of a subject in the sun, as stops: an upright surface that faces the sun
   * over one that faces away. The trade's usual 8 to 1 for a clear day is three stops; that is
   * within half a stop of this while the sun stands between 20 and 40 degrees, and a higher sun
   * gives less.
   *
   * @return stops, 0 or more
   */
  public double sidesStops() {
    return Math.log(verticalLux(0.0) / verticalLux(180.0)) / Math.log(2.0);
  }

  private double aroundLux(double groundLux) {
    return (skyHorizontalLux + GROUND_REFLECTANCE * groundLux) / 2.0;
  }

  private double incidence(double turnDeg) {
    return Math.cos(Math.toRadians(turnDeg)) * Math.cos(Math.toRadians(sunApparentAltitudeDeg));
  }

  private double sine() {
    return Math.sin(Math.toRadians(sunApparentAltitudeDeg));
  }

  private static void requireLux(String what, double lux) {
    if (!(lux >= 0.0 && lux < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "expected 0 or more lux " + what + ", a finite number, found " + lux);
    }
  }
}
