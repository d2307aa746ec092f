package org.lightledger.shot.exif;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * The GPS date and time, which are UTC (Exif, CIPA DC-008, 4.6.6).
 *
 * @param instant date and time, or null when one of them is missing or impossible
 * @param timeOfDay the time, or null
 */
record GpsClock(@Nullable Instant instant, @Nullable LocalTime timeOfDay) {
  private static final Pattern DATE = Pattern.compile("(\\d{4})[:/-](\\d{2})[:/-](\\d{2})");
  private static final Pattern COMMA_TIME =
      Pattern.compile("(\\d{1,2}),0+,(\\d{1,2}),0+,(\\d{1,2}),\\d+");

  /** GPS time begins on 1980-01-06 (IS-GPS-200, 3.3.4). */
  private static final LocalDate GPS_EPOCH = LocalDate.of(1980, 1, 6);

  static GpsClock read(TagDirectory gps, Findings findings) {
    LocalTime time = time(gps, findings);
    if (time != null && "V".equals(gps.text(Tags.GPS_STATUS))) {
      findings.damaged(
          "The file says that the receiver had no fix (status V); its GPS time is not used.");
      return new GpsClock(null, null);
    }
    String dateText = gps.text(Tags.GPS_DATE_STAMP);
    if (dateText == null || CameraClock.isBlank(dateText)) {
      boolean zeroBesideBlank = dateText != null && LocalTime.MIDNIGHT.equals(time);
      return new GpsClock(null, zeroBesideBlank ? null : time);
    }
    LocalDate date = date(dateText);
    if (date == null) {
      findings.damaged(
          "The GPS date reads \"%s\"; expected a date such as 2024:06:21; it is not used.",
          CameraClock.shortened(dateText));
      return new GpsClock(null, time);
    }
    return new GpsClock(time == null ? null : date.atTime(time).toInstant(ZoneOffset.UTC), time);
  }

  private static @Nullable LocalDate date(String text) {
    Matcher matcher = DATE.matcher(text);
    if (!matcher.matches()) {
      return null;
    }
    try {
      LocalDate date =
          LocalDate.of(
              Integer.parseInt(matcher.group(1)),
              Integer.parseInt(matcher.group(2)),
              Integer.parseInt(matcher.group(3)));
      return date.isBefore(GPS_EPOCH) ? null : date;
    } catch (DateTimeException e) {
      return null;
    }
  }

  private static @Nullable LocalTime time(TagDirectory gps, Findings findings) {
    List<Ratio> parts = gps.ratios(Tags.GPS_TIME_STAMP);
    if (parts.isEmpty()) {
      String text = gps.text(Tags.GPS_TIME_STAMP);
      Matcher matcher = COMMA_TIME.matcher(text == null ? "" : text);
      return matcher.matches()
          ? time(
              Double.parseDouble(matcher.group(1)),
              Double.parseDouble(matcher.group(2)),
              Double.parseDouble(matcher.group(3)))
          : null;
    }
    LocalTime time = null;
    if (parts.size() == 3) {
      time = time(parts.get(0).value(), parts.get(1).value(), parts.get(2).value());
    }
    if (time == null && parts.stream().anyMatch(part -> part.denominator() != 0)) {
      findings.damaged(
          "The GPS time reads %s; expected hour, minute and second; it is not used.",
          parts.stream().limit(4).map(Ratio::toString).collect(Collectors.joining(" ")));
    }
    return time;
  }

  private static @Nullable LocalTime time(
      @Nullable Double hour, @Nullable Double minute, @Nullable Double second) {
    if (hour == null || minute == null || second == null) {
      return null;
    }
    boolean whole = hour == Math.rint(hour) && minute == Math.rint(minute);
    boolean inRange =
        hour >= 0 && hour < 24 && minute >= 0 && minute < 60 && second >= 0 && second < 60;
    return whole && inRange
        ? LocalTime.of(hour.intValue(), minute.intValue())
            .plusNanos((long) Math.floor(second * 1e9))
        : null;
  }
}
