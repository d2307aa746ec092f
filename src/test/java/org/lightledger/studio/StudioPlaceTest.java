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

  @Test
  void theZoneIsThatOfMostSpots() {
    assertThat(StudioPlace.zone(List.of())).isEqualTo(ZoneOffset.UTC);
    assertThat(StudioPlace.zone(List.of(spot(42, -6)))).isEqualTo(ZoneId.of("Europe/Madrid"));
  }
}
