package org.lightledger.ask;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.light.LightRules;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SunDay;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.sun.SunEvent;
import org.lightledger.sun.SunEventKind;

/**
 * That the sun is below the horizon at every asked moment at every spot that was looked at, with
 * the sunset or sunrise of one of them.
 *
 * @param spot the spot
 * @param at the first asked moment there
 * @param set when the sun set there before that moment on its day; null when it did not
 * @param rises when it next rises there on that day; null when it does not
 */
public record SunDown(
    Spot spot, OffsetDateTime at, @Nullable OffsetDateTime set, @Nullable OffsetDateTime rises) {

  /** Looks at the spots whose zone is known; tells nothing when the sun is up at one of them. */
  static @Nullable SunDown of(List<Spot> spots, MomentTable moments, SunEphemeris sun) {
    boolean up = spots.parallelStream().anyMatch(spot -> isUp(spot, moments));
    return up
        ? null
        : spots.stream()
            .map(spot -> at(spot, moments, sun))
            .flatMap(Optional::stream)
            .findFirst()
            .orElse(null);
  }

  private static boolean isUp(Spot spot, MomentTable moments) {
    ZoneId zone = spot.zone();
    return zone != null
        && moments.of(spot.position(), zone).stream()
            .flatMap(day -> day.moments().stream())
            .anyMatch(
                moment ->
                    moment.subsolar().from(spot.position()).geometricAltitudeDeg()
                        >= LightRules.HORIZON_DEG);
  }

  private static Optional<SunDown> at(Spot spot, MomentTable moments, SunEphemeris sun) {
    ZoneId zone = spot.zone();
    return zone == null
        ? Optional.empty()
        : moments.of(spot.position(), zone).stream()
            .flatMap(day -> day.moments().stream())
            .findFirst()
            .map(moment -> beside(spot, zone, moment.instant(), sun));
  }

  private static SunDown beside(Spot spot, ZoneId zone, Instant moment, SunEphemeris sun) {
    OffsetDateTime at = moment.atZone(zone).toOffsetDateTime();
    SunDay day = SunDay.of(sun, spot.position(), zone, at.toLocalDate());
    return new SunDown(
        spot,
        at,
        day.events(SunEventKind.SUNSET).stream()
            .map(SunEvent::at)
            .filter(moment::isAfter)
            .reduce((first, second) -> second)
            .map(event -> event.atZone(zone).toOffsetDateTime())
            .orElse(null),
        day.events(SunEventKind.SUNRISE).stream()
            .map(SunEvent::at)
            .filter(moment::isBefore)
            .findFirst()
            .map(event -> event.atZone(zone).toOffsetDateTime())
            .orElse(null));
  }
}
