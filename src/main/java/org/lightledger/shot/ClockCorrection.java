package org.lightledger.shot;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * How a camera's wrong clock is put right: true reading = the camera's reading + correction. A
 * camera that shows 15:00 when it is 14:00 is an hour ahead, and its correction is -1:00:00.
 *
 * @param toAdd what to add to the camera's reading: whole milliseconds, less than a million hours
 *     either way (some 114 years, more than any camera's clock can be off; own choice)
 */
public record ClockCorrection(Duration toAdd) {
  private static final int NANOS_PER_MILLI = 1_000_000;
  private static final Duration LIMIT = Duration.ofHours(1_000_000);
  private static final Pattern TEXT =
      Pattern.compile("([+-])(\\d{1,6}):([0-5]\\d):([0-5]\\d)(?:\\.(\\d{1,3}))?");

  /** The clock is right, or nobody has said that it is not. */
  public static final ClockCorrection NONE = new ClockCorrection(Duration.ZERO);

  /**
   * Checks the correction.
   *
   * @throws IllegalArgumentException when it is too large or finer than a millisecond
   */
  public ClockCorrection {
    if (toAdd.abs().compareTo(LIMIT) >= 0) {
      throw new IllegalArgumentException(
          "expected a clock correction of less than a million hours, found " + toAdd);
    }
    if (toAdd.getNano() % NANOS_PER_MILLI != 0) {
      throw new IllegalArgumentException(
          "expected a clock correction in whole milliseconds, found " + toAdd);
    }
  }

  /**
   * Reads "±H:MM:SS", with up to three decimals of a second.
   *
   * @param text for example "-1:00:00", what to add to the camera's reading
   * @return the correction
   * @throws IllegalArgumentException naming what was found and what was expected
   */
  public static ClockCorrection parse(String text) {
    Matcher matcher = TEXT.matcher(text);
    if (!matcher.matches()) {
      throw new IllegalArgumentException(
          "expected a clock correction ±H:MM:SS, what to add to the camera's time (-1:00:00 when"
              + " the camera is an hour ahead), found \""
              + text
              + "\"");
    }
    String fraction = matcher.group(5) == null ? "" : matcher.group(5);
    Duration size =
        Duration.ofHours(Long.parseLong(matcher.group(2)))
            .plusMinutes(Long.parseLong(matcher.group(3)))
            .plusSeconds(Long.parseLong(matcher.group(4)))
            .plusMillis(Long.parseLong((fraction + "000").substring(0, 3)));
    return new ClockCorrection(matcher.group(1).equals("-") ? size.negated() : size);
  }

  /**
   * The correction that one shot gives whose true local time the owner knows, for example because a
   * right clock can be read in the picture.
   *
   * @param reading what the camera's clock said
   * @param truth what a right clock on the same zone said at that moment
   * @return the correction for the camera's other shots, to the nearest millisecond
   * @throws IllegalArgumentException when the two are too far apart
   */
  public static ClockCorrection between(LocalDateTime reading, LocalDateTime truth) {
    Duration rounded = Duration.between(reading, truth).plusNanos(NANOS_PER_MILLI / 2);
    return new ClockCorrection(rounded.minusNanos(rounded.getNano() % NANOS_PER_MILLI));
  }

  /**
   * The correction that one shot gives whose true instant the owner knows.
   *
   * @param reading what the camera's clock said
   * @param truth when the shot was taken, UTC
   * @param clockOffset the offset from UTC that the camera's clock was meant to be set to
   * @return the correction for the camera's other shots, to the nearest millisecond
   * @throws IllegalArgumentException when the two are too far apart
   */
  public static ClockCorrection between(
      LocalDateTime reading, Instant truth, ZoneOffset clockOffset) {
    return between(reading, LocalDateTime.ofInstant(truth, clockOffset));
  }

  /**
   * Puts a reading right.
   *
   * @param reading what the camera's clock said
   * @return what it should have said
   */
  public LocalDateTime apply(LocalDateTime reading) {
    return reading.plus(toAdd);
  }

  /**
   * Whether there is nothing to correct.
   *
   * @return true for a correction of nothing
   */
  public boolean isNone() {
    return toAdd.isZero();
  }

  /**
   * The correction as text; a fraction of a second only where there is one.
   *
   * @return text that {@link #parse} reads, such as "-1:00:00"
   */
  public String toText() {
    Duration size = toAdd.abs();
    String seconds =
        String.format(
            Locale.ROOT,
            "%s%d:%02d:%02d",
            toAdd.isNegative() ? "-" : "+",
            size.toHours(),
            size.toMinutesPart(),
            size.toSecondsPart());
    return size.toMillisPart() == 0
        ? seconds
        : seconds + String.format(Locale.ROOT, ".%03d", size.toMillisPart());
  }
}
