package org.lightledger.web;

import java.time.Month;
import java.time.format.TextStyle;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.LightCalendar;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;
import org.lightledger.web.chart.CalendarChart;

/** Shows the light of a year along one facing, as a chart and as a table. */
final class YearViews {
  private static final int POINTS = 8;

  private YearViews() {}

  static SkyView.Year year(LightCalendar calendar, Spot spot, SkyChoice choice) {
    int first = CalendarChart.firstHour(calendar);
    int last = CalendarChart.lastHour(calendar);
    List<SkyView.Month> months = new ArrayList<>();
    for (Month month : Month.values()) {
      List<String> lights =
          IntStream.range(first, last).mapToObj(hour -> most(calendar, month, hour)).toList();
      months.add(new SkyView.Month(month.getDisplayName(TextStyle.SHORT, Locale.ENGLISH), lights));
    }
    return new SkyView.Year(
        String.valueOf(choice.year()),
        Words.bearing(choice.facing()),
        facings(spot, choice),
        CalendarChart.draw("year-wide", calendar, CalendarChart.Size.WIDE, choice.day()),
        CalendarChart.draw("year-narrow", calendar, CalendarChart.Size.NARROW, choice.day()),
        lights(calendar).stream()
            .map(
                light ->
                    new SkyView.Light(
                        CalendarChart.swatch("swatch-" + light.code(), light), light.label()))
            .toList(),
        IntStream.range(first, last)
            .mapToObj(hour -> String.format(Locale.ROOT, "%02d:00", hour))
            .toList(),
        months);
  }

  private static Set<LightClass> lights(LightCalendar calendar) {
    Set<LightClass> found = EnumSet.noneOf(LightClass.class);
    for (List<@Nullable LightClass> column : calendar.columns()) {
      for (LightClass light : column) {
        if (light != null) {
          found.add(light);
        }
      }
    }
    return found;
  }

  /** The light at the full hour on most days of a month. */
  private static String most(LightCalendar calendar, Month month, int hour) {
    Map<LightClass, Integer> days = new EnumMap<>(LightClass.class);
    int row = hour * 60 / calendar.minutesPerRow();
    for (int column = 0; column < calendar.dates().size(); column++) {
      LightClass light = calendar.columns().get(column).get(row);
      if (calendar.dates().get(column).getMonth() == month && light != null) {
        days.merge(light, 1, Integer::sum);
      }
    }
    return days.entrySet().stream()
        .max(Comparator.comparingInt(Map.Entry::getValue))
        .map(most -> (days.size() > 1 ? "mostly " : "") + most.getKey().label())
        .orElse("no such hour");
  }

  private static List<SkyView.Choice> facings(Spot spot, SkyChoice choice) {
    String picked = SkyChoice.plain(choice.facing());
    List<SkyView.Choice> choices = new ArrayList<>();
    for (Facing facing : spot.facings()) {
      add(choices, facing.bearing(), "", picked);
    }
    if (spot.facings().isEmpty() || spot.open()) {
      for (int point = 0; point < POINTS; point++) {
        add(choices, Bearing.of(point * 360.0 / POINTS), "", picked);
      }
    }
    add(choices, choice.facing(), " (as asked)", picked);
    return choices;
  }

  private static void add(
      List<SkyView.Choice> choices, Bearing bearing, String note, String picked) {
    String value = SkyChoice.plain(bearing);
    if (choices.stream().noneMatch(choice -> choice.value().equals(value))) {
      choices.add(new SkyView.Choice(value, Words.bearing(bearing) + note, value.equals(picked)));
    }
  }
}
