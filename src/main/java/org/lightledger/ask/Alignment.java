package org.lightledger.ask;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.lightledger.geo.Angles;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.sun.SunCurve;
import org.lightledger.sun.SunDay;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.sun.SunEvent;
import org.lightledger.sun.SunEventKind;

/** Finds the days on which the sun rises or sets in line with a street or a view. */
public final class Alignment {
  /** In line is within half of the disc's width and what a day adds, degrees: own choice. */
  public static final double IN_LINE_DEG = 0.5;

  private final SunEphemeris sun;

  /**
   * A search for alignments.
   *
   * @param sun knows where the sun is
   */
  public Alignment(SunEphemeris sun) {
    this.sun = sun;
  }

  /**
   * A day on which the sun rises or sets in line.
   *
   * @param kind sunrise or sunset
   * @param at when, by the almanac's level horizon
   * @param azimuthDeg where, degrees in [0, 360)
   * @param besideDeg how far right of the line, degrees in [-{@value #IN_LINE_DEG}, {@value
   *     #IN_LINE_DEG}]
   */
  public record Day(SunEventKind kind, OffsetDateTime at, double azimuthDeg, double besideDeg) {}

  /**
   * Finds the days.
   *
   * @param place where one stands
   * @param zone the zone of the place
   * @param bearing the line
   * @param first first local day
   * @param last last local day, at most {@value Question#MOST_DAYS} days in all
   * @return the days, in order
   * @throws IllegalArgumentException when the range is reversed or too long
   */
  public List<Day> days(
      GeoPoint place, ZoneId zone, Bearing bearing, LocalDate first, LocalDate last) {
    Rehearsal.Free range = Rehearsal.Free.always(first, last);
    SunCurve curve =
        SunCurve.of(
            sun,
            range.first().minusDays(3).atStartOfDay(ZoneOffset.UTC).toInstant(),
            range.last().plusDays(4).atStartOfDay(ZoneOffset.UTC).toInstant());
    List<Day> days = new ArrayList<>();
    for (LocalDate date = first; !date.isAfter(last); date = date.plusDays(1)) {
      for (SunEvent event : SunDay.of(curve, place, zone, date).events()) {
        if (event.kind() == SunEventKind.SUNRISE || event.kind() == SunEventKind.SUNSET) {
          double azimuthDeg = event.direction().azimuth().trueDeg();
          double besideDeg = Angles.turnDeg(bearing.trueDeg(), azimuthDeg);
          if (Math.abs(besideDeg) <= IN_LINE_DEG) {
            days.add(
                new Day(
                    event.kind(),
                    event.at().atZone(zone).toOffsetDateTime(),
                    azimuthDeg,
                    besideDeg));
          }
        }
      }
    }
    return days;
  }
}
