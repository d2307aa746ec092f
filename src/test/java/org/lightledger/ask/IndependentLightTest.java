package org.lightledger.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Angles;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.sun.SpaEphemeris;
import org.shredzone.commons.suncalc.SunPosition;

/**
 * Calendars and windows against commons-suncalc, a general-purpose library with an algorithm of its
 * own (Montenbruck and Pfleger's low-precision sun), and the thresholds written out once more.
 */
class IndependentLightTest {
  /** Both suns agree within this; nearer to a threshold the classes may differ. */
  private static final double ANGLE_ERROR_DEG = 0.03;

  private static final int CASES = 1000;
  private static final List<ZoneId> ZONES =
      List.of(
          ZoneId.of("Europe/Madrid"),
          ZoneId.of("America/New_York"),
          ZoneId.of("Asia/Tokyo"),
          ZoneId.of("Pacific/Auckland"));

  @Test
  void noClassDiffersExceptAtAThreshold() {
    Random random = new Random(51);
    int differing = 0;
    int compared = 0;
    for (int i = 0; i < CASES; i++) {
      ZoneId zone = ZONES.get(random.nextInt(ZONES.size()));
      GeoPoint place =
          new GeoPoint(random.nextDouble() * 140 - 70, random.nextDouble() * 360 - 180);
      Bearing facing = new Bearing(random.nextInt(360));
      Skyline skyline = i % 2 == 0 ? null : blocks(random);
      LocalDate day = LocalDate.of(2026, 1, 1).plusDays(random.nextInt(365));
      Set<LightClass> wanted = EnumSet.of(LightClass.values()[random.nextInt(9)], LightClass.RIM);
      List<Answer.Window> windows =
          SpotWindows.of(new SpaEphemeris(), place, zone, facing, skyline, wanted, day, day);
      LightCalendar calendar =
          i % 50 == 0
              ? LightCalendar.of(
                  new SpaEphemeris(), place, zone, facing, skyline, day.getYear(), 1, 60)
              : null;
      for (int hour = 0; hour < 24; hour++) {
        ZonedDateTime at = day.atTime(hour, 0).atZone(zone);
        if (at.getHour() != hour) {
          continue;
        }
        Independent sun = Independent.at(at, place);
        LightClass expected = sun.light(facing, skyline);
        boolean within = holds(windows, at.toInstant());
        compared++;
        if (within != wanted.contains(expected)) {
          differing++;
          assertThat(sun.nearThreshold(facing, skyline))
              .as("case %d at %s: %s, expected %s", i, at, within, expected)
              .isTrue();
        }
        if (calendar != null && !sun.nearThreshold(facing, skyline)) {
          assertThat(calendar.columns().get(day.getDayOfYear() - 1).get(hour))
              .as("calendar, case %d at %s", i, at)
              .isEqualTo(expected);
        }
      }
    }
    assertThat(compared).isGreaterThan(23 * CASES);
    assertThat(differing).as("hours at a threshold").isLessThan(compared / 200);
  }

  private static boolean holds(List<Answer.Window> windows, Instant instant) {
    return windows.stream()
        .anyMatch(
            window ->
                !instant.isBefore(window.from().toInstant())
                    && !instant.isAfter(window.to().toInstant()));
  }

  /** The sun by the other library. */
  private record Independent(double azimuthDeg, double apparentDeg, double geometricDeg) {
    static Independent at(ZonedDateTime at, GeoPoint place) {
      SunPosition sun =
          SunPosition.compute().on(at).at(place.latitudeDeg(), place.longitudeDeg()).execute();
      return new Independent(sun.getAzimuth(), sun.getAltitude(), sun.getTrueAltitude());
    }

    LightClass light(Bearing facing, @Nullable Skyline skyline) {
      if (geometricDeg < -6) {
        return LightClass.DARK;
      }
      if (geometricDeg < -0.8333) {
        return LightClass.TWILIGHT;
      }
      if (skyline != null && apparentDeg <= skyline.altitudeDegAt(azimuthDeg)) {
        return LightClass.OPEN_SHADE;
      }
      if (apparentDeg > 60) {
        return LightClass.OVERHEAD;
      }
      double turnDeg = Math.abs(Angles.turnDeg(facing.trueDeg(), azimuthDeg));
      return turnDeg <= 30
          ? LightClass.BACKLIT
          : turnDeg <= 75
              ? LightClass.RIM
              : turnDeg <= 105
                  ? LightClass.SIDE
                  : turnDeg <= 150 ? LightClass.THREE_QUARTER_FRONT : LightClass.FRONT;
    }

    /** Whether some sun within the angle error has another light. */
    boolean nearThreshold(Bearing facing, @Nullable Skyline skyline) {
      double wideDeg = ANGLE_ERROR_DEG / Math.max(0.02, Math.cos(Math.toRadians(apparentDeg)));
      LightClass here = light(facing, skyline);
      for (int right = -4; right <= 4; right++) {
        for (int up = -4; up <= 4; up++) {
          double upDeg = up * ANGLE_ERROR_DEG / 4;
          Independent beside =
              new Independent(
                  Angles.normalizeDeg(azimuthDeg + right * wideDeg / 4),
                  apparentDeg + upDeg,
                  geometricDeg + upDeg);
          if (beside.light(facing, skyline) != here) {
            return true;
          }
        }
      }
      return false;
    }
  }

  private static Skyline blocks(Random random) {
    SkylineBuilder builder = new SkylineBuilder();
    double altitudeDeg = 5.0;
    for (int step = 0; step < Skyline.STEPS; step++) {
      if (step % 30 == 0) {
        altitudeDeg = random.nextInt(35);
      }
      builder.set(step, altitudeDeg, 0.4, SkylineSource.BUILDING, Set.of());
    }
    return builder.build();
  }
}
