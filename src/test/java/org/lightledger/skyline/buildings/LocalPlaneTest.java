package org.lightledger.skyline.buildings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.Angles;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;

class LocalPlaneTest {
  @ParameterizedTest
  @CsvSource({
    "0, 0, 5000",
    "48, 16, 5000",
    "-33.9, 18.4, 5000",
    "70, 25, 5000",
    "-17, 179.999, 2000"
  })
  void givesTrueAzimuthsAndDistances(double latitude, double longitude, double distanceM) {
    GeoPoint place = new GeoPoint(latitude, longitude);
    LocalPlane plane = new LocalPlane(place);
    for (double azimuthDeg = 0.0; azimuthDeg < 360.0; azimuthDeg += 5.0) {
      GeoPoint there = Geodesy.destination(place, new Bearing(azimuthDeg), distanceM);
      double east = plane.eastM(there.longitudeDeg(), there.latitudeDeg());
      double north = plane.northM(there.longitudeDeg(), there.latitudeDeg());

      assertThat(Math.hypot(east, north)).isEqualTo(distanceM, within(0.02));
      assertThat(Angles.turnDeg(azimuthDeg, Math.toDegrees(Math.atan2(east, north))))
          .isEqualTo(0.0, within(0.0002));
    }
  }
}
