package org.lightledger.web.chart;

import java.time.LocalDate;
import java.time.format.TextStyle;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.LightCalendar;
import org.lightledger.light.LightClass;

/**
 * The light of a year along one facing: dates to the right, hours of the clock downwards, an area
 * for each light with its colour, its word or letter, and lines where the colour alone would not
 * tell it. Hours that are dark all year are left out.
 */
public final class CalendarChart {

  /** How much room there is. */
  public enum Size {
    /** A desktop column. */
    WIDE(760, 23),
    /** A phone. */
    NARROW(360, 21);

    final double width;
    final double hourHeight;

    Size(double width, double hourHeight) {
      this.width = width;
      this.hourHeight = hourHeight;
    }
  }

  private static final double LEFT = 34;
  private static final double RIGHT = 8;
  private static final double TOP = 22;
  private static final int MINUTES_OF_HOUR = 60;
  private static final Map<LightClass, Tile> TILES =
      Map.of(
          LightClass.OPEN_SHADE, new Tile(7, "M-1 8L8 -1M-1 1L1 -1M6 8L8 6"),
          LightClass.TWILIGHT, new Tile(7, "M3 3.5h1.2"),
          LightClass.OVERHEAD, new Tile(9, "M4.5 2.2v4.6M2.2 4.5h4.6"));

  /** Lines that fill an area. */
  private record Tile(double size, String data) {}

  private final LightCalendar calendar;
  private final Size size;
  private final int firstHour;
  private final int lastHour;

  private CalendarChart(LightCalendar calendar, Size size) {
    this.calendar = calendar;
    this.size = size;
    this.firstHour = firstHour(calendar);
    this.lastHour = lastHour(calendar);
  }

  /**
   * The first hour of the clock that is not dark all year.
   *
   * @param calendar the year
   * @return from 0 to 23
   */
  public static int firstHour(LightCalendar calendar) {
    for (int hour = 0; hour < 24; hour++) {
      if (hasLight(calendar, hour)) {
        return hour;
      }
    }
    return 0;
  }

  /**
   * The hour of the clock after which it is dark all year.
   *
   * @param calendar the year
   * @return from 1 to 24
   */
  public static int lastHour(LightCalendar calendar) {
    for (int hour = 23; hour >= 0; hour--) {
      if (hasLight(calendar, hour)) {
        return hour + 1;
      }
    }
    return 24;
  }

  private static boolean hasLight(LightCalendar calendar, int hour) {
    int rows = MINUTES_OF_HOUR / calendar.minutesPerRow();
    for (List<@Nullable LightClass> column : calendar.columns()) {
      for (LightClass light : column.subList(hour * rows, (hour + 1) * rows)) {
        if (light != null && light != LightClass.DARK) {
          return true;
        }
      }
    }
    return false;
  }

  /**
   * A light's colour, lines and letter, for the legend.
   *
   * @param id unique in the page
   * @param light the light
   * @return the drawing; the word has to stand beside it
   */
  public static Svg swatch(String id, LightClass light) {
    Drawing drawing = Drawing.decorative("calswatch", 30, 20);
    String area = "M0 0h30v20h-30z";
    area(drawing, id, light, area);
    drawing.text("cal-letter on-" + light.code(), 15, 14.5, "middle", letter(light));
    return drawing.finish();
  }

  /**
   * Draws a year.
   *
   * @param id unique in the page
   * @param calendar the light, in rows of a whole part of an hour
   * @param size how much room there is
   * @param marked a date to mark, or null
   * @return the drawing with words for screen readers
   */
  public static Svg draw(String id, LightCalendar calendar, Size size, @Nullable LocalDate marked) {
    return new CalendarChart(calendar, size).draw(id, marked);
  }

  private double columnWidth() {
    return (size.width - LEFT - RIGHT) / calendar.dates().size();
  }

  private double rowHeight() {
    return size.hourHeight * calendar.minutesPerRow() / MINUTES_OF_HOUR;
  }

  private int firstRow() {
    return firstHour * MINUTES_OF_HOUR / calendar.minutesPerRow();
  }

  private int rows() {
    return (lastHour - firstHour) * MINUTES_OF_HOUR / calendar.minutesPerRow();
  }

  private double x(int column) {
    return LEFT + column * columnWidth();
  }

  private double y(int row) {
    return TOP + row * rowHeight();
  }

  private @Nullable LightClass light(int column, int row) {
    return calendar.columns().get(column).get(firstRow() + row);
  }

  private Svg draw(String id, @Nullable LocalDate marked) {
    double height = y(rows()) + 8;
    Drawing drawing =
        Drawing.described(
            "calendar calendar-" + size.name().toLowerCase(Locale.ROOT),
            size.width,
            height,
            "img",
            id,
            new Drawing.Words(
                String.format(
                    Locale.ROOT,
                    "The light of %d looking %s",
                    calendar.dates().get(0).getYear(),
                    calendar.facing().compassPoint()),
                "Dates run to the right, hours of the clock downwards. The table below the chart"
                    + " says the same in words."));
    areas()
        .forEach((light, data) -> area(drawing, id + "-" + light.code(), light, data.toString()));
    scales(drawing);
    if (marked != null && marked.getYear() == calendar.dates().get(0).getYear()) {
      double x =
          LEFT
              + (marked.getDayOfYear() - 0.5) / marked.lengthOfYear() * (size.width - LEFT - RIGHT);
      drawing.line("cal-day-casing", x, TOP - 6, x, y(rows()));
      drawing.line("cal-day", x, TOP - 6, x, y(rows()));
    }
    for (CalendarLabels.Label label : labels()) {
      drawing.text(
          "cal-word on-" + label.light().code(), label.x(), label.y() + 4, "middle", label.text());
    }
    return drawing.finish();
  }

  /** For each light the cells of every column, as the data of one path. */
  private Map<LightClass, StringBuilder> areas() {
    Map<LightClass, StringBuilder> areas = new EnumMap<>(LightClass.class);
    for (int column = 0; column < calendar.dates().size(); column++) {
      int from = 0;
      for (int row = 1; row <= rows(); row++) {
        LightClass light = light(column, from);
        if (row == rows() || light(column, row) != light) {
          if (light != null) {
            areas
                .computeIfAbsent(light, l -> new StringBuilder())
                .append('M')
                .append(Drawing.tenths(x(column)))
                .append(' ')
                .append(Drawing.tenths(y(from)))
                .append('H')
                .append(Drawing.tenths(x(column + 1)))
                .append('V')
                .append(Drawing.tenths(y(row)))
                .append('H')
                .append(Drawing.tenths(x(column)))
                .append('Z');
          }
          from = row;
        }
      }
    }
    return areas;
  }

  private static void area(Drawing drawing, String id, LightClass light, String data) {
    drawing.path("cal cal-" + light.code(), data);
    Tile tile = TILES.get(light);
    if (tile != null) {
      drawing.pattern(id, tile.size(), "cal-lines on-lines-" + light.code(), tile.data());
      drawing.patterned(id, data);
    }
  }

  private void scales(Drawing drawing) {
    for (int hour = firstHour; hour <= lastHour; hour++) {
      double y = TOP + (hour - firstHour) * size.hourHeight;
      if (hour % 3 == 0) {
        drawing.line("cal-grid", LEFT - 4, y, size.width - RIGHT, y);
        drawing.text("p-label", LEFT - 7, y + 4, "end", String.format(Locale.ROOT, "%02d", hour));
      }
    }
    LocalDate first = calendar.dates().get(0);
    for (int month = 1; month <= 12; month++) {
      LocalDate start = LocalDate.of(first.getYear(), month, 1);
      double perDay = (size.width - LEFT - RIGHT) / first.lengthOfYear();
      double x = LEFT + (start.getDayOfYear() - 1) * perDay;
      drawing.line("cal-grid", x, TOP - 4, x, y(rows()));
      String name = start.getMonth().getDisplayName(TextStyle.SHORT, Locale.ENGLISH);
      drawing.text(
          "p-label",
          x + start.lengthOfMonth() * perDay / 2,
          TOP - 8,
          "middle",
          size == Size.WIDE ? name : name.substring(0, 1));
    }
  }

  private List<CalendarLabels.Label> labels() {
    return new CalendarLabels(
            new CalendarLabels.Cells(calendar.dates().size(), rows(), this::light),
            new CalendarLabels.Frame(LEFT, TOP, columnWidth(), rowHeight()))
        .find();
  }

  /** The letter that stands for a light where its word has no room. */
  static String letter(LightClass light) {
    return switch (light) {
      case BACKLIT -> "B";
      case RIM -> "R";
      case SIDE -> "S";
      case THREE_QUARTER_FRONT -> "¾";
      case FRONT -> "F";
      case OVERHEAD -> "H";
      case OPEN_SHADE -> "O";
      case TWILIGHT -> "T";
      case DARK -> "D";
    };
  }

  /** The word of a light, short enough for an area. */
  static String word(LightClass light) {
    return light == LightClass.THREE_QUARTER_FRONT ? "¾ front" : light.label();
  }
}
