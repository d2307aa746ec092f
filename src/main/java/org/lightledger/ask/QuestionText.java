package org.lightledger.ask;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.light.LightClass;

/** Reads and writes the parts of a question as text, for the command line and for addresses. */
public final class QuestionText {
  private static final String RANGE = "..";
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);
  private static final Pattern FROM_SUN =
      Pattern.compile("(sunrise|sunset)(?:([+-])(?:(\\d{1,2})h)?(?:(\\d{1,4})m)?)?");

  private QuestionText() {}

  /**
   * A range of days.
   *
   * @param first first day
   * @param last last day
   */
  public record Days(LocalDate first, LocalDate last) {}

  /**
   * Reads light classes.
   *
   * @param text codes with commas between, such as "backlit,rim"
   * @return the classes
   * @throws IllegalArgumentException naming what was found and what is possible
   */
  public static Set<LightClass> parseLights(String text) {
    Set<LightClass> lights = EnumSet.noneOf(LightClass.class);
    for (String code : text.split(",", -1)) {
      lights.add(LightClass.parse(code));
    }
    return lights;
  }

  /**
   * Reads a day or a range of days.
   *
   * @param text DATE or DATE..DATE, such as 2026-12-12 or 2026-12-01..2026-12-31
   * @return the days
   * @throws IllegalArgumentException naming what was found and what was expected
   */
  public static Days parseDays(String text) {
    String[] ends = ends(text);
    try {
      return new Days(LocalDate.parse(ends[0]), LocalDate.parse(ends[1]));
    } catch (DateTimeException e) {
      throw new IllegalArgumentException(
          "expected a date or a range of dates that exist, such as 2026-12-12 or"
              + " 2026-12-01..2026-12-31, found \""
              + text
              + "\"",
          e);
    }
  }

  /**
   * Reads an hour.
   *
   * @param text HH:MM, HH:MM..HH:MM, or an offset from the sun such as sunset-60m or sunrise+1h30m
   * @return the hour
   * @throws IllegalArgumentException naming what was found and what was expected
   */
  public static TimeOfDay parseTime(String text) {
    String trimmed = text.strip().toLowerCase(Locale.ROOT);
    Matcher fromSun = FROM_SUN.matcher(trimmed);
    if (fromSun.matches() && !trimmed.endsWith("-") && !trimmed.endsWith("+")) {
      return fromSun(fromSun);
    }
    String[] ends = ends(trimmed);
    LocalTime from;
    LocalTime to;
    try {
      from = LocalTime.parse(ends[0], HOUR);
      to = LocalTime.parse(ends[1], HOUR);
    } catch (DateTimeException e) {
      throw new IllegalArgumentException(
          "expected an hour such as 17:00, a range such as 16:30..18:00, or an offset from the sun"
              + " such as sunset-60m, found \""
              + text
              + "\"",
          e);
    }
    return new TimeOfDay.Clock(from, to);
  }

  private static TimeOfDay fromSun(Matcher parts) {
    long minutes = number(parts.group(3)) * 60 + number(parts.group(4));
    return new TimeOfDay.FromSun(
        parts.group(1).equals("sunset") ? TimeOfDay.Anchor.SUNSET : TimeOfDay.Anchor.SUNRISE,
        Duration.ofMinutes("-".equals(parts.group(2)) ? -minutes : minutes));
  }

  private static long number(@Nullable String digits) {
    return digits == null ? 0 : Long.parseLong(digits);
  }

  private static String[] ends(String text) {
    int range = text.indexOf(RANGE);
    return range < 0
        ? new String[] {text.strip(), text.strip()}
        : new String[] {
          text.substring(0, range).strip(), text.substring(range + RANGE.length()).strip()
        };
  }

  /**
   * Writes light classes.
   *
   * @param lights the classes
   * @return text that {@link #parseLights} reads
   */
  public static String lights(Set<LightClass> lights) {
    return lights.stream().sorted().map(LightClass::code).collect(Collectors.joining(","));
  }

  /**
   * Writes days.
   *
   * @param first first day
   * @param last last day
   * @return text that {@link #parseDays} reads
   */
  public static String days(LocalDate first, LocalDate last) {
    return first.equals(last) ? first.toString() : first + RANGE + last;
  }

  /**
   * Writes an hour.
   *
   * @param time the hour
   * @return text that {@link #parseTime} reads
   */
  public static String time(TimeOfDay time) {
    if (time instanceof TimeOfDay.Clock clock) {
      String from = HOUR.format(clock.from());
      return clock.from().equals(clock.to()) ? from : from + RANGE + HOUR.format(clock.to());
    }
    TimeOfDay.FromSun fromSun = (TimeOfDay.FromSun) time;
    String anchor = fromSun.anchor().name().toLowerCase(Locale.ROOT);
    long minutes = fromSun.offset().toMinutes();
    return minutes == 0 ? anchor : String.format(Locale.ROOT, "%s%+dm", anchor, minutes);
  }
}
