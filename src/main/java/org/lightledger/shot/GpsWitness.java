package org.lightledger.shot;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.zone.ZoneOffsetTransition;
import java.time.zone.ZoneRules;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** What a file's GPS time, with a date or without, says of the camera's clock. */
final class GpsWitness {
  /**
   * Greatest difference between clock and GPS time at which the offset between them is believed.
   * The plausible pairs of the reference collection differ by up to 102 s (old fixes, drifting
   * clocks); in two minutes the sun moves by its own diameter of half a degree, which changes no
   * light.
   */
  static final Duration GREATEST_DRIFT = Duration.ofMinutes(2);

  private static final int QUARTER_HOUR_S = 15 * 60;
  private static final int DAY_S = 24 * 3600;

  /** GPS time begins on 1980-01-06 (IS-GPS-200, 3.3.4). */
  private static final Instant GPS_EPOCH = Instant.parse("1980-01-06T00:00:00Z");

  /** The greatest offset that {@link ZoneOffset} allows; clocks on earth stay within. */
  private static final Duration GREATEST_OFFSET =
      Duration.ofSeconds(ZoneOffset.MAX.getTotalSeconds());

  /** Every offset that a clock on earth has had since there is GPS time, by this Java's tzdata. */
  static final Set<ZoneOffset> OFFSETS_ON_EARTH = offsetsOnEarth();

  private final Evidence evidence;

  GpsWitness(Evidence evidence) {
    this.evidence = evidence;
  }

  /** The offset that the GPS date and time give, or null when there is none or it is impossible. */
  @Nullable ZoneOffset offset(LocalDateTime local) {
    Instant gps = evidence.gpsInstant();
    return gps == null ? null : offsetBetween(local, gps);
  }

  private static @Nullable ZoneOffset offsetBetween(LocalDateTime local, Instant gps) {
    Duration difference = Duration.between(gps, local.toInstant(ZoneOffset.UTC));
    if (difference.abs().compareTo(GREATEST_OFFSET) > 0) {
      return null;
    }
    double quarters = (difference.getSeconds() + difference.getNano() / 1e9) / QUARTER_HOUR_S;
    int seconds = (int) Math.round(quarters) * QUARTER_HOUR_S;
    Duration remainder = difference.minusSeconds(seconds);
    ZoneOffset offset = ZoneOffset.ofTotalSeconds(seconds);
    return remainder.abs().compareTo(GREATEST_DRIFT) <= 0 && OFFSETS_ON_EARTH.contains(offset)
        ? offset
        : null;
  }

  /** Whether the file's GPS time is that of an instant, to the greatest drift. */
  boolean isNear(OffsetDateTime candidate) {
    Duration ahead = ahead(candidate.toInstant());
    return ahead != null && ahead.abs().compareTo(GREATEST_DRIFT) <= 0;
  }

  /**
   * How far an instant lies ahead of the file's GPS time; by the time of day alone, in (-12 h, 12
   * h], when the file has no GPS date; null when it has no GPS time.
   */
  @Nullable Duration ahead(Instant instant) {
    Instant gps = evidence.gpsInstant();
    if (gps != null) {
      return Duration.between(gps, instant);
    }
    LocalTime timeOfDay = evidence.gpsTimeOfDay();
    if (timeOfDay == null) {
      return null;
    }
    Duration ahead = Duration.between(timeOfDay, instant.atOffset(ZoneOffset.UTC).toLocalTime());
    if (ahead.getSeconds() > DAY_S / 2) {
      return ahead.minusSeconds(DAY_S);
    }
    return ahead.getSeconds() <= -DAY_S / 2 ? ahead.plusSeconds(DAY_S) : ahead;
  }

  /**
   * Adds the instants that a GPS time of day without a date stands for, when it gives offsets that
   * exist but none of the candidates has one of them.
   */
  Map<Instant, OffsetDateTime> withTimeOfDay(
      LocalDateTime local, Map<Instant, OffsetDateTime> candidates) {
    LocalTime timeOfDay = evidence.gpsTimeOfDay();
    if (timeOfDay == null
        || evidence.gpsInstant() != null
        || candidates.values().stream().anyMatch(this::isNear)) {
      return candidates;
    }
    Map<Instant, OffsetDateTime> all = new TreeMap<>(candidates);
    for (int day = -1; day <= 1; day++) {
      Instant gps = local.toLocalDate().plusDays(day).atTime(timeOfDay).toInstant(ZoneOffset.UTC);
      ZoneOffset offset = offsetBetween(local, gps);
      if (offset != null) {
        OffsetDateTime candidate = local.atOffset(offset);
        all.put(candidate.toInstant(), candidate);
      }
    }
    return all;
  }

  private static Set<ZoneOffset> offsetsOnEarth() {
    Set<ZoneOffset> offsets = new HashSet<>();
    for (String id : ZoneId.getAvailableZoneIds()) {
      ZoneRules rules = ZoneId.of(id).getRules();
      offsets.add(rules.getOffset(GPS_EPOCH));
      for (ZoneOffsetTransition transition : rules.getTransitions()) {
        if (transition.getInstant().isAfter(GPS_EPOCH)) {
          offsets.add(transition.getOffsetAfter());
        }
      }
      rules.getTransitionRules().forEach(rule -> offsets.add(rule.getOffsetAfter()));
    }
    return Set.copyOf(offsets);
  }
}
