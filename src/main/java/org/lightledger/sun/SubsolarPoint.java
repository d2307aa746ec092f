package org.lightledger.sun;

import org.lightledger.geo.Angles;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;

/**
 * Where on the earth the sun stands in the zenith at an instant. It depends on the instant alone,
 * so one computation serves every spot; what is left for each spot is a spherical triangle.
 *
 * @param declinationDeg the sun's apparent declination, degrees north, in [-90, 90]
 * @param greenwichHourAngleDeg the sun's hour angle at Greenwich, degrees westward, in [0, 360)
 */
public record SubsolarPoint(double declinationDeg, double greenwichHourAngleDeg) {

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
    double geocentricAltitudeDeg = Math.toDegrees(Math.atan2(up, level));
    double geometricAltitudeDeg =
        Math.max(-90.0, geocentricAltitudeDeg - HORIZONTAL_PARALLAX_DEG * level);
    return new SunDirection(
        new Bearing(Angles.normalizeDeg(Math.toDegrees(Math.atan2(east, north)))),
        geometricAltitudeDeg,
        Refraction.apparentAltitudeDeg(geometricAltitudeDeg));
  }

  /** The sun's equatorial horizontal parallax, 8.794 arc seconds at one astronomical unit (IAU). */
  private static final double HORIZONTAL_PARALLAX_DEG = 8.794 / 3600.0;
}
