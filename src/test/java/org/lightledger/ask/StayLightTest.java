package org.lightledger.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunEphemeris;

class StayLightTest {
  private static final SunEphemeris SUN = new SpaEphemeris();
  private static final GeoPoint PLACE = new GeoPoint(41.93, -6.42);
  private static final ZoneId ZONE = ZoneId.of("Europe/Madrid");
  private static final Bearing FACING = new Bearing(232);

  private static StayLight stay(LocalDateTime from, int minutes) {
    Instant start = from.atZone(ZONE).toInstant();
    return StayLight.of(
        SUN,
        new StayLight.Stay(
            PLACE, ZONE, FACING, null, Sky.CLEAR, start, start.plus(Duration.ofMinutes(minutes))));
  }

  @Test
  void oneExposureServesAShortStay() {
    StayLight light = stay(LocalDateTime.of(2026, 12, 15, 16, 0), 20);

    assertThat(light.expectedWords()).isEqualTo(light.expected().words());
  }

  /** From a low sun into dusk: the sun sets at 17:55. */
  @Test
  void aStayIntoDuskIsToldAtBothEnds() {
    StayLight light = stay(LocalDateTime.of(2026, 12, 15, 16, 45), 85);

    StayLight early = stay(LocalDateTime.of(2026, 12, 15, 16, 45), 1);
    StayLight late = stay(LocalDateTime.of(2026, 12, 15, 18, 9), 1);
    assertThat(light.expectedAtStart()).isEqualTo(early.expectedAtStart());
    assertThat(light.expectedAtEnd()).isEqualTo(late.expectedAtEnd());
    assertThat(light.expectedAtStart().ev100() - light.expectedAtEnd().ev100()).isGreaterThan(3);
    assertThat(light.expectedWords())
        .isEqualTo(
            "at first "
                + early.expectedAtStart().words()
                + "; at last "
                + late.expectedAtEnd().words());
  }

  @Test
  void aLightThatGoesOnPastMidnightIsOne() {
    StayLight light = stay(LocalDateTime.of(2026, 12, 15, 23, 30), 60);

    assertThat(light.spans())
        .singleElement()
        .satisfies(
            span -> {
              assertThat(span.light()).isEqualTo(LightClass.DARK);
              assertThat(span.window().from().toLocalDate()).isEqualTo("2026-12-15");
              assertThat(span.window().to().toLocalDate()).isEqualTo("2026-12-16");
            });
  }
}
