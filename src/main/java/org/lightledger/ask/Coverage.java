package org.lightledger.ask;

import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightRules;
import org.lightledger.spot.Observation;
import org.lightledger.sun.SunCurve;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/**
 * At which seasons and times of the day a spot has been scouted, and at which it has not.
 *
 * @param shots how many shots fall into each season and time
 * @param possible the times that a season has at the place at all
 */
public record Coverage(Map<Season, Map<Time, Integer>> shots, Map<Season, Set<Time>> possible) {
  private static final Duration AN_HOUR = Duration.ofHours(1);

  /** Midday is within two hours of the sun's highest stand, at 15 degrees an hour: own choice. */
  private static final double MIDDAY_WITHIN_DEG = 30;

  /**
   * Nearer to the equator every season has every time: at 60 degrees the shortest day lasts nearly
   * six hours, and the sun sinks low enough at midsummer for twilight.
   */
  private static final double EVERY_TIME_UP_TO_DEG = 60;

  private static final int LOOK_EVERY_DAYS = 2;
  private static final int LOOK_EVERY_MINUTES = 10;

  /** A quarter of the year, by the sun's declination: it begins at a solstice or an equinox. */
  public enum Season {
    /** From the equinox on, with the days growing. */
    SPRING("spring"),
    /** From the longest day on. */
    SUMMER("summer"),
    /** From the equinox on, with the days shrinking. */
    AUTUMN("autumn"),
    /** From the shortest day on. */
    WINTER("winter");

    private final String label;

    Season(String label) {
      this.label = label;
    }

    /**
     * The word on screens.
     *
     * @return for example "autumn"
     */
    public String label() {
      return label;
    }
  }

  /** A time of the day, by the sun. */
  public enum Time {
    /** Within an hour after sunrise. */
    FIRST_HOUR("first hour after sunrise", "within an hour of sunrise"),
    /** Until two hours before the sun's highest stand. */
    MORNING("morning", "in the morning"),
    /** Within two hours of the sun's highest stand. */
    MIDDAY("midday", "around midday"),
    /** From two hours after the sun's highest stand. */
    AFTERNOON("afternoon", "in the afternoon"),
    /** Within an hour before sunset. */
    LAST_HOUR("last hour before sunset", "within an hour of sunset"),
    /** Civil twilight, before sunrise or after sunset. */
    TWILIGHT("twilight", "in twilight");

    private final String label;
    private final String when;

    Time(String label, String when) {
      this.label = label;
      this.when = when;
    }

    /**
     * The word on screens.
     *
     * @return for example "last hour before sunset"
     */
    public String label() {
      return label;
    }
  }

  /** What portraits are made in most, first: the order of the sentences. Own choice. */
  private static final List<Time> BY_USE =
      List.of(
          Time.LAST_HOUR,
          Time.FIRST_HOUR,
          Time.AFTERNOON,
          Time.MORNING,
          Time.MIDDAY,
          Time.TWILIGHT);

  /** Keeps own copies. */
  public Coverage {
    Map<Season, Map<Time, Integer>> ownShots = new EnumMap<>(Season.class);
    shots.forEach((season, times) -> ownShots.put(season, Map.copyOf(times)));
    shots = Map.copyOf(ownShots);
    Map<Season, Set<Time>> ownPossible = new EnumMap<>(Season.class);
    possible.forEach((season, times) -> ownPossible.put(season, Set.copyOf(times)));
    possible = Map.copyOf(ownPossible);
  }

  /**
   * Counts the shots. One in the dark counts nowhere.
   *
   * @param sun where the sun is
   * @param place the spot
   * @param observations what its shots tell
   * @return the coverage
   */
  public static Coverage of(SunEphemeris sun, GeoPoint place, List<Observation> observations) {
    Map<Season, Map<Time, Integer>> shots = new EnumMap<>(Season.class);
    for (Observation observation : observations) {
      Instant at = observation.at().toInstant();
      time(sun, place, at)
          .ifPresent(
              time ->
                  shots
                      .computeIfAbsent(season(sun, place, at), any -> new EnumMap<>(Time.class))
                      .merge(time, 1, Integer::sum));
    }
    return new Coverage(shots, possible(sun, place, observations));
  }

  /**
   * The season of a moment, that of the hemisphere; the equator counts as north.
   *
   * @param sun where the sun is
   * @param place any place
   * @param at when
   * @return the astronomical quarter of the year
   */
  public static Season season(SunEphemeris sun, GeoPoint place, Instant at) {
    double side = place.latitudeDeg() < 0 ? -1 : 1;
    boolean high = side * sun.at(at).declinationDeg() >= 0;
    boolean rising =
        side
                * (sun.at(at.plus(AN_HOUR)).declinationDeg()
                    - sun.at(at.minus(AN_HOUR)).declinationDeg())
            > 0;
    if (high) {
      return rising ? Season.SPRING : Season.SUMMER;
    }
    return rising ? Season.WINTER : Season.AUTUMN;
  }

  /**
   * The time of the day of a moment, by a level horizon. The hour after sunrise and the hour before
   * sunset come before midday on a short day.
   *
   * @param sun where the sun is
   * @param place any place
   * @param at when
   * @return the time; nothing in the dark
   */
  public static Optional<Time> time(SunEphemeris sun, GeoPoint place, Instant at) {
    SunDirection now = sun.direction(at, place);
    if (now.geometricAltitudeDeg() < LightRules.TWILIGHT_DOWN_TO_DEG) {
      return Optional.empty();
    }
    if (now.geometricAltitudeDeg() < LightRules.HORIZON_DEG) {
      return Optional.of(Time.TWILIGHT);
    }
    if (isDown(sun, place, at.minus(AN_HOUR))) {
      return Optional.of(Time.FIRST_HOUR);
    }
    if (isDown(sun, place, at.plus(AN_HOUR))) {
      return Optional.of(Time.LAST_HOUR);
    }
    double hourAngleDeg = hourAngleDeg(now, place);
    if (Math.abs(hourAngleDeg) <= MIDDAY_WITHIN_DEG) {
      return Optional.of(Time.MIDDAY);
    }
    return Optional.of(hourAngleDeg < 0 ? Time.MORNING : Time.AFTERNOON);
  }

  private static boolean isDown(SunEphemeris sun, GeoPoint place, Instant at) {
    return sun.direction(at, place).geometricAltitudeDeg() < LightRules.HORIZON_DEG;
  }

  /**
   * Spherical astronomy's way from the horizon to the equator: west of the meridian is positive.
   */
  private static double hourAngleDeg(SunDirection sun, GeoPoint place) {
    double altitude = Math.toRadians(sun.geometricAltitudeDeg());
    double azimuth = Math.toRadians(sun.azimuth().trueDeg());
    double latitude = Math.toRadians(place.latitudeDeg());
    return Math.toDegrees(
        Math.atan2(
            -Math.sin(azimuth) * Math.cos(altitude),
            Math.sin(altitude) * Math.cos(latitude)
                - Math.cos(altitude) * Math.cos(azimuth) * Math.sin(latitude)));
  }

  private static Map<Season, Set<Time>> possible(
      SunEphemeris sun, GeoPoint place, List<Observation> observations) {
    Map<Season, Set<Time>> possible = new EnumMap<>(Season.class);
    boolean every = Math.abs(place.latitudeDeg()) <= EVERY_TIME_UP_TO_DEG;
    for (Season season : Season.values()) {
      possible.put(season, every ? EnumSet.allOf(Time.class) : EnumSet.noneOf(Time.class));
    }
    if (every || observations.isEmpty()) {
      return possible;
    }
    OffsetDateTime first = observations.get(0).at();
    Instant from = first.toInstant();
    Instant to = first.plusYears(1).toInstant();
    SunCurve curve = SunCurve.of(sun, from.minus(AN_HOUR), to.plus(AN_HOUR));
    for (Instant day = from; day.isBefore(to); day = day.plus(Duration.ofDays(LOOK_EVERY_DAYS))) {
      Set<Time> times = EnumSet.noneOf(Time.class);
      for (int minute = 0; minute < 24 * 60; minute += LOOK_EVERY_MINUTES) {
        Instant at = day.plus(Duration.ofMinutes(minute));
        if (at.isBefore(to)) {
          time(curve, place, at).ifPresent(times::add);
        }
      }
      possible
          .computeIfAbsent(season(curve, place, day), any -> EnumSet.noneOf(Time.class))
          .addAll(times);
    }
    return possible;
  }

  /**
   * How many shots there are.
   *
   * @param season the season
   * @param time the time of the day
   * @return 0 or more
   */
  public int count(Season season, Time time) {
    return shots.getOrDefault(season, Map.of()).getOrDefault(time, 0);
  }

  /**
   * Whether there is such a time at the place: a polar winter has no sunset.
   *
   * @param season the season
   * @param time the time of the day
   * @return true when there is
   */
  public boolean has(Season season, Time time) {
    return possible.getOrDefault(season, Set.of()).contains(time) || count(season, time) > 0;
  }

  /**
   * How many pairs of season and time have been scouted.
   *
   * @return 0 or more
   */
  public int seen() {
    return shots.values().stream().mapToInt(Map::size).sum();
  }

  /**
   * How many there are at the place.
   *
   * @return at most 24
   */
  public int inAll() {
    int all = 0;
    for (Season season : Season.values()) {
      for (Time time : Time.values()) {
        all += has(season, time) ? 1 : 0;
      }
    }
    return all;
  }

  /**
   * What has never been seen, in words: whole seasons first, then the times of the others.
   *
   * @return sentences without a full stop, such as "never seen within an hour of sunset in autumn"
   */
  public List<String> gaps() {
    if (seen() == 0) {
      return List.of("never seen at any time: no shot here tells when it was taken by daylight");
    }
    List<String> sentences = new ArrayList<>();
    List<Season> visited =
        Arrays.stream(Season.values())
            .filter(season -> !shots.getOrDefault(season, Map.of()).isEmpty())
            .toList();
    List<Season> missed =
        Arrays.stream(Season.values()).filter(season -> !visited.contains(season)).toList();
    if (!missed.isEmpty()) {
      sentences.add("never seen in " + words(missed));
    }
    for (Time time : BY_USE) {
      List<Season> having = visited.stream().filter(season -> has(season, time)).toList();
      List<Season> without = having.stream().filter(season -> count(season, time) == 0).toList();
      if (!without.isEmpty()) {
        boolean at = without.size() == having.size() && missed.isEmpty();
        sentences.add("never seen " + time.when + (at ? "" : " in " + words(without)));
      }
    }
    return List.copyOf(sentences);
  }

  private static String words(List<Season> seasons) {
    int last = seasons.size() - 1;
    String end = seasons.get(last).label();
    return last == 0
        ? end
        : seasons.subList(0, last).stream().map(Season::label).collect(Collectors.joining(", "))
            + " or "
            + end;
  }
}
