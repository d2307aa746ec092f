package org.lightledger.session.planner;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Times and numbers as they are said. */
final class Words {
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private static final String[] NUMBERS = {
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve"
  };

  private Words() {}

  /** A clock time. */
  static String hour(Instant instant, ZoneId zone) {
    return HOUR.format(instant.atZone(zone));
  }

  /** A number of something, in words up to twelve. */
  static String count(long number, String one, String many) {
    String said =
        number >= 0 && number < NUMBERS.length ? NUMBERS[(int) number] : Long.toString(number);
    return said + " " + (number == 1 ? one : many);
  }

  /** A number of minutes, in words up to twelve. */
  static String minutes(long number) {
    return count(number, "minute", "minutes");
  }

  /** Thousandths of a light minute. */
  static String lightMinutes(long milli) {
    return String.format(Locale.ROOT, "%.1f light minutes", milli / (double) Worth.MILLI);
  }

  /** A sentence begins with a capital. */
  static String sentence(String text) {
    return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }
}
