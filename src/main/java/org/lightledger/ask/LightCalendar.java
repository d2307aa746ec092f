package org.lightledger.ask;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.Skyline;
import org.lightledger.sun.SunCurve;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/**
 * The light at a spot along a facing over a year, by local date and clock time.
 *
 * @param facing where the camera looks
 * @param dates the local dates, a column each, in order
 * @param minutesPerRow how far apart the clock times of the rows lie; the first is midnight
 * @param columns the light for each date and row; null where the clock time does not exist
 */
public record LightCalendar(
    Bearing facing,
    List<LocalDate> dates,
    int minutesPerRow,
    List<List<@Nullable LightClass>> columns) {

  private static final int MINUTES_OF_DAY = 24 * 60;

  /** Keeps its own copies. */
  public LightCalendar {
    dates = List.copyOf(dates);
    columns = List.copyOf(columns);
  }

  /**
   * The calendar of a year.
   *
   * @param sun where the sun is
   * @param place the spot
   * @param zone the zone of the place
   * @param facing where the camera looks
   * @param skyline what stands around the spot; null when nothing is known
   * @param year which year
   * @param daysPerColumn how far apart the dates lie, 1 or more
   * @param minutesPerRow how far apart the clock times lie; a divisor of a day's minutes
   * @return the calendar
   * @throws IllegalArgumentException when one of the last two is out of its interval
   */
  public static LightCalendar of(
      SunEphemeris sun,
      GeoPoint place,
      ZoneId zone,
      Bearing facing,
      @Nullable Skyline skyline,
      int year,
      int daysPerColumn,
      int minutesPerRow) {
    if (daysPerColumn < 1) {
      throw new IllegalArgumentException("expected 1 day or more, found " + daysPerColumn);
    }
    if (minutesPerRow < 1 || MINUTES_OF_DAY % minutesPerRow != 0) {
      throw new IllegalArgumentException(
          "expected minutes that divide a day evenly, found " + minutesPerRow);
    }
    LocalDate first = LocalDate.of(year, 1, 1);
    SunCurve curve =
        SunCurve.of(
            sun,
            first.minusDays(3).atStartOfDay(ZoneOffset.UTC).toInstant(),
            first.plusYears(1).plusDays(3).atStartOfDay(ZoneOffset.UTC).toInstant());
    List<LocalDate> dates = new ArrayList<>();
    List<List<@Nullable LightClass>> columns = new ArrayList<>();
    for (LocalDate date = first; date.getYear() == year; date = date.plusDays(daysPerColumn)) {
      @Nullable LightClass[] column = new LightClass[MINUTES_OF_DAY / minutesPerRow];
      for (int row = 0; row < column.length; row++) {
        LocalTime time = LocalTime.ofSecondOfDay(row * minutesPerRow * 60L);
        List<Instant> instants = Moments.of(new TimeOfDay.Clock(time, time), date, zone);
        if (!instants.isEmpty()) {
          SunDirection direction = curve.direction(instants.get(0), place);
          column[row] = SpotLight.classOf(direction, facing, skyline);
        }
      }
      dates.add(date);
      columns.add(Arrays.asList(column));
    }
    return new LightCalendar(facing, dates, minutesPerRow, columns);
  }
}
