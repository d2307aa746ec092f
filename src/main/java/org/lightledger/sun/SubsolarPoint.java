package org.lightledger.sun;

import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;

/**
 * Where on the earth the sun stands in the zenith at an instant. It depends on the instant alone,
 * so one computation serves every spot; what is left for each spot is a spherical triangle.
 *
 * @param declinationDeg the sun's apparent geocentric declination, degrees north, in [-90, 90]
 * @param greenwichHourAngleDeg the sun's hour angle at Greenwich, degrees westward, in [0, 360)
 */
public record SubsolarPoint(double declinationDeg, double greenwichHourAngleDeg) {

  /**
   * The sun's equatorial horizontal parallax at one astronomical unit: 8.794 arc seconds (Reda and
   * Andreas, NREL/TP-560-34302, step 3.12.1). The true distance and the flattened earth change it
   * by less than 0.00006 degrees.
   */
  private static final double HORIZONTAL_PARALLAX_DEG = 8.794 / 3600.0;

  /**
   * Checks the angles.
   *
   * @throws IllegalArgumentException when one is out of its interval or not a number
   */
  public SubsolarPoint {
    if (!(declinationDeg >= -90.0 && declinationDeg <= 90.0)) {
      throw new IllegalArgumentException(
          "expected a declination in [-90, 90] degrees, found " + declinationDeg);
    }
    if (!(greenwichHourAngleDeg >= 0.0 && greenwichHourAngleDeg < 360.0)) {
      throw new IllegalArgumentException(
          "expected an hour angle in [0, 360) degrees, found " + greenwichHourAngleDeg);
    }
  }

  /**
   * The sun's direction on the sky of a place: the spherical triangle of pole, zenith and sun
   * (Meeus, Astronomical Algorithms, 2nd ed. 1998, formulas 13.5 and 13.6, azimuth turned to
   * north), lowered by the sun's parallax, then lifted by {@link Refraction}.
   *
   * <p>At a pole the azimuth is counted from the meridian opposite the place's longitude, as if the
   * place lay a step away from the pole on its own meridian; with the sun exactly in the zenith or
   * nadir it is whatever rounding leaves.
   *
   * @param place where one looks from
   * @return the direction
   */
  public SunDirection from(GeoPoint place) {
    double hourAngle = Math.toRadians(greenwichHourAngleDeg + place.longitudeDeg());
    double latitude = Math.toRadians(place.latitudeDeg());
    double declination = Math.toRadians(declinationDeg);
    double sinLatitude = Math.sin(latitude);
    double cosLatitude = Math.cos(latitude);
    double sinDeclination = Math.sin(declination);
    double cosDeclination = Math.cos(declination);
    double cosHourAngle = Math.cos(hourAngle);

    double east = -cosDeclination * Math.sin(hourAngle);
    double north = cosLatitude * sinDeclination - sinLatitude * cosDeclination * cosHourAngle;
    double up = sinLatitude * sinDeclination + cosLatitude * cosDeclination * cosHourAngle;

    double level = Math.sqrt(east * east + north * north);
    double geometricAltitudeDeg = lowered(Math.toDegrees(Math.atan2(up, level)), level);
    return new SunDirection(
        Bearing.of(Math.toDegrees(Math.atan2(east, north))),
        geometricAltitudeDeg,
        Refraction.apparentAltitudeDeg(geometricAltitudeDeg));
  }

  /**
   * The geometric altitude as seen from the ground.
   *
   * @param up the vertical part of the unit vector towards the sun from the earth's centre
   * @return degrees in [-90, 90]
   */
  static double geometricAltitudeDeg(double up) {
    double level = Math.sqrt(Math.max(0.0, 1.0 - up * up));
    return lowered(Math.toDegrees(Math.atan2(up, level)), level);
  }

  /**
   * The vertical part of the unit vector towards the sun from the earth's centre, when the sun is
   * seen from the ground at an altitude: undoes {@link #geometricAltitudeDeg}, to 0.0000002
   * degrees.
   */
  static double upAt(double geometricAltitudeDeg) {
    double level = Math.cos(Math.toRadians(geometricAltitudeDeg));
    return Math.sin(Math.toRadians(geometricAltitudeDeg + HORIZONTAL_PARALLAX_DEG * level));
  }

  private static double lowered(double geocentricAltitudeDeg, double level) {
    return Math.max(-90.0, geocentricAltitudeDeg - HORIZONTAL_PARALLAX_DEG * level);
  }
}
