package org.lightledger.sun;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.lightledger.geo.GeoPoint;

/**
 * What the sun does at a place on a local date.
 *
 * <p>A date lasts from its first instant in the zone until the first instant of the next date, so
 * that the days of a zone follow each other without gaps: mostly 24 hours, 22 to 26 where clocks
 * change, up to two days where a zone has crossed the date line. A date that a zone has skipped is
 * {@link Skipped}. A day may hold two sunsets, or none.
 */
public sealed interface SunDay {

  /**
   * Where.
   *
   * @return the place
   */
  GeoPoint place();

  /**
   * Whose clocks.
   *
   * @return the zone of the place
   */
  ZoneId zone();

  /**
   * Which day.
   *
   * @return the local date
   */
  LocalDate date();

  /**
   * Everything that happens, in order of time.
   *
   * @return the events; none on a skipped date
   */
  List<SunEvent> events();

  /**
   * Why the day has no event of a kind.
   *
   * @param kind the kind
   * @return a reason to show, or nothing when the day has such an event
   */
  Optional<String> absence(SunEventKind kind);

  /**
   * All events of a kind, in order of time.
   *
   * @param kind the kind
   * @return none, one or several
   */
  default List<SunEvent> events(SunEventKind kind) {
    return events().stream().filter(event -> event.kind() == kind).toList();
  }

  /**
   * When the first event of a kind happens.
   *
   * @param kind the kind
   * @return the instant, or nothing when the day has no such event
   */
  default Optional<Instant> event(SunEventKind kind) {
    return events(kind).stream().map(SunEvent::at).findFirst();
  }

  /**
   * The day of a place.
   *
   * @param ephemeris where the sun is
   * @param place where
   * @param zone the zone whose clocks the place keeps
   * @param date the local date
   * @return what the sun does, or that the date does not exist there
   * @throws IllegalArgumentException when the ephemeris does not serve the date
   */
  static SunDay of(SunEphemeris ephemeris, GeoPoint place, ZoneId zone, LocalDate date) {
    if (!date.atStartOfDay(zone).toLocalDate().equals(date)) {
      return new Skipped(place, zone, date);
    }
    Instant start = date.atStartOfDay(zone).toInstant();
    Instant end = date.plusDays(1).atStartOfDay(zone).toInstant();
    SunSearch search = SunSearch.over(ephemeris, place, start, end);
    List<SunEvent> events = new ArrayList<>();
    Map<SunThreshold, SunState> states = new EnumMap<>(SunThreshold.class);
    for (SunThreshold threshold : SunThreshold.values()) {
      states.put(threshold, search.state(threshold.geometricAltitudeDeg()));
      for (SunCrossing crossing : search.crossings(threshold.geometricAltitudeDeg())) {
        SunEventKind kind = crossing.rising() ? threshold.rising() : threshold.setting();
        events.add(new SunEvent(kind, crossing.at(), search.direction(crossing.at())));
      }
    }
    for (Instant noon : search.noons()) {
      events.add(new SunEvent(SunEventKind.SOLAR_NOON, noon, search.direction(noon)));
    }
    for (Instant midnight : search.midnights()) {
      events.add(new SunEvent(SunEventKind.SOLAR_MIDNIGHT, midnight, search.direction(midnight)));
    }
    events.sort(Comparator.comparing(SunEvent::at));
    return new Lived(
        place, zone, date, start, end, events, states, search.highest(), search.lowest());
  }

  /**
   * A date that exists.
   *
   * @param place where
   * @param zone whose clocks
   * @param date which day
   * @param start the first instant of the date
   * @param end the first instant of the next date
   * @param events everything that happens, in order of time
   * @param states how the sun keeps to each threshold
   * @param highest when the sun's altitude is greatest
   * @param lowest when it is least
   */
  record Lived(
      GeoPoint place,
      ZoneId zone,
      LocalDate date,
      Instant start,
      Instant end,
      List<SunEvent> events,
      Map<SunThreshold, SunState> states,
      SunMoment highest,
      SunMoment lowest)
      implements SunDay {

    /** Keeps its own copies. */
    public Lived {
      events = List.copyOf(events);
      states = Collections.unmodifiableMap(new EnumMap<>(states));
    }

    /**
     * How the sun keeps to the horizon.
     *
     * @return polar day, polar night, or rising or setting
     */
    public SunState state() {
      return state(SunThreshold.HORIZON);
    }

    /**
     * How the sun keeps to a threshold.
     *
     * @param threshold which
     * @return up, down, or crossing
     */
    public SunState state(SunThreshold threshold) {
      SunState state = states.get(threshold);
      if (state == null) {
        throw new IllegalStateException("no state of " + threshold + " among " + states);
      }
      return state;
    }

    @Override
    public Optional<String> absence(SunEventKind kind) {
      if (event(kind).isPresent()) {
        return Optional.empty();
      }
      for (SunThreshold threshold : SunThreshold.values()) {
        if (kind == threshold.rising() || kind == threshold.setting()) {
          return Optional.of("no " + kind.label() + ": " + reason(threshold));
        }
      }
      return Optional.of("no " + kind.label() + " within this local day");
    }

    private String reason(SunThreshold threshold) {
      boolean horizon = threshold == SunThreshold.HORIZON;
      return switch (state(threshold)) {
        case ALWAYS_UP ->
            horizon
                ? "polar day, the sun stays up"
                : "the sun stays above " + degrees(threshold) + " degrees";
        case ALWAYS_DOWN ->
            horizon
                ? "polar night, the sun stays down"
                : "the sun stays below " + degrees(threshold) + " degrees";
        case CROSSES -> "it falls outside this local day";
      };
    }

    private static long degrees(SunThreshold threshold) {
      return Math.round(threshold.geometricAltitudeDeg());
    }
  }

  /**
   * A date that the zone has skipped, as when a country moves across the date line.
   *
   * @param place where
   * @param zone whose clocks
   * @param date the date that no clock has shown
   */
  record Skipped(GeoPoint place, ZoneId zone, LocalDate date) implements SunDay {
    @Override
    public List<SunEvent> events() {
      return List.of();
    }

    @Override
    public Optional<String> absence(SunEventKind kind) {
      return Optional.of(
          "no " + kind.label() + ": the date " + date + " does not exist in " + zone.getId());
    }
  }
}
