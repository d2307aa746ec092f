package org.lightledger.skyline.buildings;

import org.lightledger.geo.GeoPoint;

/**
 * Metres east and north of a place on the WGS 84 ellipsoid, with true azimuths and distances from
 * the place: the azimuthal equidistant projection (Snyder, Map Projections, A Working Manual, 1987,
 * page 191) to the second order in latitude and longitude. Within five kilometres and 70 degrees of
 * latitude, azimuths are right to 0.0002 degrees and distances to 0.02 metres.
 */
final class LocalPlane {
  /** WGS 84 (NIMA TR8350.2, 3rd ed. 2000, section 3.2). */
  private static final double SEMI_MAJOR_M = 6_378_137.0;

  private static final double FLATTENING = 1.0 / 298.257223563;
  private static final double ECCENTRICITY_2 = FLATTENING * (2.0 - FLATTENING);

  private final GeoPoint place;
  private final double northPerRad;
  private final double eastPerRad;
  private final double eastPerProduct;
  private final double northPerSquare;
  private final double meridianGrowth;

  LocalPlane(GeoPoint place) {
    this.place = place;
    double latitude = Math.toRadians(place.latitudeDeg());
    double sine = Math.sin(latitude);
    double cosine = Math.cos(latitude);
    double w2 = 1.0 - ECCENTRICITY_2 * sine * sine;
    double meridianRadius = SEMI_MAJOR_M * (1.0 - ECCENTRICITY_2) / (w2 * Math.sqrt(w2));
    double primeRadius = SEMI_MAJOR_M / Math.sqrt(w2);
    northPerRad = meridianRadius;
    eastPerRad = primeRadius * cosine;
    eastPerProduct = -meridianRadius * sine;
    northPerSquare = primeRadius * cosine * sine / 2.0;
    meridianGrowth = 1.5 * ECCENTRICITY_2 * sine * cosine / w2;
  }

  double eastM(double longitudeDeg, double latitudeDeg) {
    return dLongitude(longitudeDeg) * (eastPerRad + eastPerProduct * dLatitude(latitudeDeg));
  }

  double northM(double longitudeDeg, double latitudeDeg) {
    double dLongitude = dLongitude(longitudeDeg);
    double dLatitude = dLatitude(latitudeDeg);
    return dLatitude * northPerRad * (1.0 + meridianGrowth * dLatitude)
        + northPerSquare * dLongitude * dLongitude;
  }

  private double dLongitude(double longitudeDeg) {
    double turnDeg = longitudeDeg - place.longitudeDeg();
    if (turnDeg > 180.0) {
      turnDeg -= 360.0;
    } else if (turnDeg < -180.0) {
      turnDeg += 360.0;
    }
    return Math.toRadians(turnDeg);
  }

  private double dLatitude(double latitudeDeg) {
    return Math.toRadians(latitudeDeg - place.latitudeDeg());
  }

  /** How many degrees of latitude a distance is. */
  double latitudeDeg(double metres) {
    return Math.toDegrees(metres / northPerRad);
  }

  /** How many degrees of longitude a distance is. */
  double longitudeDeg(double metres) {
    return Math.toDegrees(metres / eastPerRad);
  }

  /**
   * The way back, by Newton's method with the slopes at the place: each step takes a thousandth of
   * the error, so four leave nothing that a double can hold.
   *
   * @return longitude, which runs on beyond 180 behind the date line, and latitude, degrees
   */
  double[] toDegrees(double eastM, double northM) {
    double longitudeDeg = place.longitudeDeg();
    double latitudeDeg = place.latitudeDeg();
    for (int i = 0; i < 4; i++) {
      double eastOffM = eastM - eastM(longitudeDeg, latitudeDeg);
      double northOffM = northM - northM(longitudeDeg, latitudeDeg);
      longitudeDeg += longitudeDeg(eastOffM);
      latitudeDeg += latitudeDeg(northOffM);
    }
    return new double[] {longitudeDeg, latitudeDeg};
  }
}
