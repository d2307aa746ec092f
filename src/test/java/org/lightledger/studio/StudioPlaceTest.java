package org.lightledger.studio;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.GeoPoint;
import org.lightledger.spot.Spot;
import org.lightledger.store.Samples;

class StudioPlaceTest {
  private static Spot spot(double latitudeDeg, double longitudeDeg) {
    return Samples.spot("Spot", new GeoPoint(latitudeDeg, longitudeDeg));
  }

  @Test
  void theMiddleLiesBetweenAlsoAcrossTheDateLine() {
    GeoPoint near = StudioPlace.middle(List.of(spot(41.9, -6.4), spot(42.1, -6.6))).orElseThrow();
    assertThat(near.latitudeDeg()).isCloseTo(42.0, within(0.001));
    assertThat(near.longitudeDeg()).isCloseTo(-6.5, within(0.001));
    GeoPoint fiji = StudioPlace.middle(List.of(spot(-17, 179.5), spot(-17, -179.5))).orElseThrow();
    assertThat(Math.abs(fiji.longitudeDeg())).isCloseTo(180, within(1e-9));
    assertThat(StudioPlace.middle(List.of())).isEmpty();
    assertThat(StudioPlace.middle(List.of(spot(10, 20), spot(-10, -160)))).isEmpty();
  }

  /** Four spots of a town and one at the coast, 500 km away: the sunset told is the town's. */
  @Test
  void oneSpotFarAwayDoesNotDrawTheMiddleFromTheOthers() {
    GeoPoint middle =
        StudioPlace.middle(
                List.of(
                    spot(41.93, -6.42),
                    spot(41.95, -6.42),
                    spot(41.93, -6.40),
                    spot(41.95, -6.40),
                    spot(43.0, -1.0)))
            .orElseThrow();

    assertThat(middle.latitudeDeg()).isBetween(41.93, 41.95);
    assertThat(middle.longitudeDeg()).isBetween(-6.42, -6.39);
  }

  /**
   * The Fermat point of a triangle is where its sides are seen under 120 degrees (Torricelli); here
   * of one some 2 km wide, on whose sides the earth is flat enough.
   */
  @Test
  void theMiddleOfThreeSeesTheSidesUnderTheSameAngle() {
    List<Spot> corners = List.of(spot(0.0, 0.0), spot(0.0, 0.02), spot(0.012, 0.005));
    GeoPoint middle = StudioPlace.middle(corners).orElseThrow();

    for (int i = 0; i < 3; i++) {
      double one = azimuthDeg(middle, corners.get(i).position());
      double other = azimuthDeg(middle, corners.get((i + 1) % 3).position());
      double angle = Math.abs(((one - other) % 360 + 540) % 360 - 180);
      assertThat(angle).isCloseTo(120, within(0.05));
    }
  }

  private static double azimuthDeg(GeoPoint from, GeoPoint to) {
    return Math.toDegrees(
        Math.atan2(to.longitudeDeg() - from.longitudeDeg(), to.latitudeDeg() - from.latitudeDeg()));
  }

  @Test
  void theZoneIsThatOfMostSpots() {
    assertThat(StudioPlace.zone(List.of())).isEqualTo(ZoneOffset.UTC);
    assertThat(StudioPlace.zone(List.of(spot(42, -6)))).isEqualTo(ZoneId.of("Europe/Madrid"));
  }
}
