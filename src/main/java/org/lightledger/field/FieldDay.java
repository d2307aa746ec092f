package org.lightledger.field;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.SpotLight;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.magnetic.MagneticField;
import org.lightledger.geo.magnetic.WorldMagneticModel;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.Clearance;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SunCurve;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/**
 * A local day, minute by minute, and what a session lasts beyond it. Each minute is told by its
 * middle, so that at any moment within it the sun stands within half a minute's way, an eighth of a
 * degree, of what is told.
 */
public final class FieldDay {
  /** Planned and known facings closer than this are one; degrees, own choice. */
  private static final double SAME_FACING_DEG = 0.5;

  private final LocalDate date;
  private final ZoneId zone;
  private final Instant from;
  private final int minutes;
  private final SunCurve curve;

  /**
   * A day.
   *
   * @param sun knows where the sun is
   * @param date the date
   * @param zone the zone of the place
   */
  public FieldDay(SunEphemeris sun, LocalDate date, ZoneId zone) {
    this(sun, date, zone, Instant.MIN);
  }

  /**
   * The day of a session that may go on after midnight.
   *
   * @param sun knows where the sun is
   * @param date the date
   * @param zone the zone of the place
   * @param over until when it reaches at least
   */
  public FieldDay(SunEphemeris sun, LocalDate date, ZoneId zone, Instant over) {
    this.date = date;
    this.zone = zone;
    this.from = date.atStartOfDay(zone).toInstant();
    Instant midnight = date.plusDays(1).atStartOfDay(zone).toInstant();
    Instant until = over.isAfter(midnight) ? over : midnight;
    this.minutes = (int) ((Duration.between(from, until).toSeconds() + 59) / 60);
    this.curve =
        SunCurve.of(
            sun, from.minus(Duration.ofHours(1)), from.plus(Duration.ofMinutes(minutes + 60L)));
  }

  /**
   * The date.
   *
   * @return a date of the zone
   */
  public LocalDate date() {
    return date;
  }

  /**
   * The zone of the place.
   *
   * @return the zone
   */
  public ZoneId zone() {
    return zone;
  }

  /**
   * The day's first instant.
   *
   * @return when minute 0 begins
   */
  public Instant from() {
    return from;
  }

  /**
   * How long it is.
   *
   * @return minutes, fewer or more than 1440 where clocks are changed or a session goes on
   */
  public int minutes() {
    return minutes;
  }

  /**
   * A spot on this day.
   *
   * @param spot the spot
   * @param hazards what to mind there
   * @param skyline what stands around it; null when nothing is known
   * @param planned where the plan looks
   * @return all that is needed to look its light up
   */
  public FieldSpot spot(
      Spot spot, Set<Hazard> hazards, @Nullable Skyline skyline, List<Bearing> planned) {
    List<Integer> azimuths = new ArrayList<>(minutes);
    List<Integer> altitudes = new ArrayList<>(minutes);
    List<SunDirection> suns = suns(spot.position());
    for (SunDirection sun : suns) {
      azimuths.add(Math.floorMod(Math.round(sun.azimuth().trueDeg() * 10), 3600));
      altitudes.add((int) Math.round(sun.apparentAltitudeDeg() * 10));
    }
    List<String> reach = new ArrayList<>(minutes);
    for (SunDirection sun : suns) {
      reach.add(reach(SpotLight.of(sun, sun.azimuth(), skyline)).code());
    }
    List<FacingLight> facings = new ArrayList<>();
    for (Bearing facing : planned) {
      facings.add(new FacingLight(facing, true, lights(suns, facing, skyline)));
    }
    for (Facing facing : spot.facings()) {
      Bearing bearing = facing.bearing();
      if (planned.stream().noneMatch(one -> isSame(one, bearing))) {
        facings.add(new FacingLight(bearing, false, lights(suns, bearing, skyline)));
      }
    }
    return new FieldSpot(
        spot,
        hazards,
        WorldMagneticModel.field(spot.position(), 0, middle(minutes / 2))
            .map(MagneticField::declinationDeg)
            .orElse(null),
        azimuths,
        altitudes,
        runs(reach),
        facings);
  }

  private static boolean isSame(Bearing one, Bearing other) {
    return Math.abs(one.turnToDeg(other)) < SAME_FACING_DEG;
  }

  private List<SunDirection> suns(GeoPoint place) {
    List<SunDirection> suns = new ArrayList<>(minutes);
    for (int minute = 0; minute < minutes; minute++) {
      suns.add(curve.direction(middle(minute), place));
    }
    return suns;
  }

  private Instant middle(int minute) {
    return from.plusSeconds(minute * 60L + 30);
  }

  private static List<DayRun> lights(
      List<SunDirection> suns, Bearing facing, @Nullable Skyline skyline) {
    List<String> codes = new ArrayList<>(suns.size());
    for (SunDirection sun : suns) {
      codes.add(SpotLight.of(sun, facing, skyline).light().code());
    }
    return runs(codes);
  }

  private static FieldSpot.Reach reach(SpotLight light) {
    if (light.light() == LightClass.TWILIGHT || light.light() == LightClass.DARK) {
      return FieldSpot.Reach.DOWN;
    }
    Boolean direct = light.directSun();
    if (direct == null) {
      return FieldSpot.Reach.NOT_KNOWN;
    }
    Clearance clearance = light.clearance();
    if (clearance != null && !clearance.certain()) {
      return FieldSpot.Reach.NOT_CERTAIN;
    }
    return direct ? FieldSpot.Reach.DIRECT : FieldSpot.Reach.SHADE;
  }

  private static List<DayRun> runs(List<String> codes) {
    List<DayRun> runs = new ArrayList<>();
    for (int minute = 0; minute < codes.size(); minute++) {
      String code = codes.get(minute);
      if (runs.isEmpty() || !runs.get(runs.size() - 1).code().equals(code)) {
        runs.add(new DayRun(minute, code));
      }
    }
    return runs;
  }
}
