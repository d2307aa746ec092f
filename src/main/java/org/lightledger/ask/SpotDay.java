package org.lightledger.ask;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightRules;
import org.lightledger.skyline.DirectSun;
import org.lightledger.skyline.Skyline;
import org.lightledger.sun.SunCurve;
import org.lightledger.sun.SunDay;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.sun.SunEventKind;

/**
 * What the sun does at a spot on one local day: when it is up by the almanac, and when it really
 * reaches the spot.
 *
 * @param day the almanac's day
 * @param direct when the sun reaches the spot; null when nothing is known of its skyline, or the
 *     day does not exist
 * @param openShade when the sun is up and something known hides it, in order
 */
public record SpotDay(SunDay day, @Nullable DirectSun direct, List<DirectSun.Window> openShade) {

  /** Shorter than this, the sun behind the skyline is the setting of its disc and no shade. */
  private static final Duration SHORTEST_SHADE = Duration.ofMinutes(3);

  /** Keeps its own copy. */
  public SpotDay {
    openShade = List.copyOf(openShade);
  }

  /**
   * Works out a day.
   *
   * @param sun where the sun is
   * @param place the spot
   * @param zone the zone of the place
   * @param date the local date
   * @param skyline what stands around the spot; null when nothing is known
   * @return the day
   */
  public static SpotDay of(
      SunEphemeris sun, GeoPoint place, ZoneId zone, LocalDate date, @Nullable Skyline skyline) {
    SunCurve curve =
        SunCurve.of(
            sun,
            date.minusDays(3).atStartOfDay(ZoneOffset.UTC).toInstant(),
            date.plusDays(4).atStartOfDay(ZoneOffset.UTC).toInstant());
    SunDay day = SunDay.of(curve, place, zone, date);
    if (skyline == null || !(day instanceof SunDay.Lived)) {
      return new SpotDay(day, null, List.of());
    }
    SunDay.Lived lived = (SunDay.Lived) day;
    DirectSun direct = DirectSun.over(curve, skyline, place, lived.start(), lived.end());
    return new SpotDay(day, direct, shade(curve, lived, skyline, direct));
  }

  private static List<DirectSun.Window> shade(
      SunCurve curve, SunDay.Lived day, Skyline skyline, DirectSun direct) {
    List<DirectSun.Window> shade = new ArrayList<>();
    for (DirectSun.Window up : up(curve, day)) {
      Instant from = up.from();
      for (DirectSun.Stretch stretch : direct.stretches()) {
        if (stretch.to().isAfter(from) && stretch.from().isBefore(up.to())) {
          add(shade, from, stretch.from(), curve, day, skyline);
          from = stretch.to();
        }
      }
      add(shade, from, up.to(), curve, day, skyline);
    }
    return shade;
  }

  /** When the sun is above the horizon. */
  private static List<DirectSun.Window> up(SunCurve curve, SunDay.Lived day) {
    List<DirectSun.Window> up = new ArrayList<>();
    Instant from = isUp(curve, day.start(), day.place()) ? day.start() : null;
    for (var event : day.events()) {
      if (event.kind() == SunEventKind.SUNRISE) {
        from = event.at();
      } else if (event.kind() == SunEventKind.SUNSET && from != null) {
        up.add(new DirectSun.Window(from, event.at()));
        from = null;
      }
    }
    if (from != null) {
      up.add(new DirectSun.Window(from, day.end()));
    }
    return up;
  }

  private static boolean isUp(SunCurve curve, Instant instant, GeoPoint place) {
    return curve.direction(instant, place).geometricAltitudeDeg() >= LightRules.HORIZON_DEG;
  }

  private static void add(
      List<DirectSun.Window> shade,
      Instant from,
      Instant to,
      SunCurve curve,
      SunDay.Lived day,
      Skyline skyline) {
    Duration length = Duration.between(from, to);
    if (length.compareTo(SHORTEST_SHADE) < 0) {
      return;
    }
    Instant middle = from.plus(length.dividedBy(2));
    if (skyline.knownAt(curve.direction(middle, day.place()).azimuth().trueDeg())) {
      shade.add(new DirectSun.Window(from, to));
    }
  }

  /**
   * How long before the almanac's last sunset of the day the sun has left the spot.
   *
   * @return zero when the spot has the sun until then; nothing when the day has no sunset, the sun
   *     never reaches the spot, or nothing is known of the skyline
   */
  public Optional<Duration> lostBeforeSunset() {
    List<Instant> sunsets =
        day.events(SunEventKind.SUNSET).stream().map(event -> event.at()).toList();
    if (direct == null || sunsets.isEmpty()) {
      return Optional.empty();
    }
    return direct.lostBefore(sunsets.get(sunsets.size() - 1));
  }
}
