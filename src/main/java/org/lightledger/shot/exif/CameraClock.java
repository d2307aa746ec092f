package org.lightledger.shot.exif;

import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The camera clock's reading and the offset beside it (Exif, CIPA DC-008, 4.6.5 table 8 group F).
 *
 * <p>DateTimeOriginal is the moment of the exposure. DateTimeDigitized is the same moment for a
 * camera, but the moment of scanning for a scanner; it stands in only where the file also has an
 * exposure time or an f-number, which scanners do not write. DateTime is when the file was changed,
 * and is never taken for the capture.
 *
 * <p>OffsetTime belongs to DateTime. It is taken for the capture's offset only while DateTime still
 * equals the capture's time: a picture edited in another country carries the editor's offset there.
 *
 * @param time the reading, or null
 * @param offset the offset from UTC written beside it, or null
 */
record CameraClock(@Nullable LocalDateTime time, @Nullable ZoneOffset offset) {
  private static final Pattern DATE_TIME =
      Pattern.compile(
          "(\\d{4})[:/.-](\\d{2})[:/.-](\\d{2})[ T](\\d{2}):(\\d{2}):(\\d{2})(?:\\.(\\d{1,9})\\d*)?");
  private static final Pattern BLANK = Pattern.compile("[ :0/.T-]*");
  private static final Pattern SUB_SECONDS = Pattern.compile("\\d{1,9}");
  private static final Pattern OFFSET = Pattern.compile("([+-])(\\d{2}):(\\d{2})");
  private static final Pattern BLANK_OFFSET = Pattern.compile("[ :+-]*");

  /** Offsets on earth lie in [-12:00, +14:00] (tzdata: Etc/GMT+12, Pacific/Kiritimati). */
  private static final int LEAST_OFFSET_S = -12 * 3600;

  private static final int GREATEST_OFFSET_S = 14 * 3600;

  /** Niépce's view from the window at Le Gras: no photograph is older. */
  private static final int FIRST_PHOTOGRAPH_YEAR = 1826;

  static CameraClock read(ExifBlock block, Findings findings) {
    TagDirectory exif = block.exif();
    String original = exif.text(Tags.DATE_TIME_ORIGINAL);
    LocalDateTime time = null;
    if (original != null && !isBlank(original)) {
      time = parse(original, exif.text(Tags.SUB_SEC_TIME_ORIGINAL));
      if (time == null) {
        findings.damaged(
            "The capture time reads \"%s\"; expected a date and time such as 2024:06:21 19:30:00.",
            shortened(original));
      }
    }
    if (time != null) {
      return new CameraClock(time, offset(block, Tags.OFFSET_TIME_ORIGINAL, original, findings));
    }
    String digitized = exif.text(Tags.DATE_TIME_DIGITIZED);
    if (digitized == null || isBlank(digitized) || !isFromCamera(exif)) {
      return new CameraClock(null, null);
    }
    time = parse(digitized, exif.text(Tags.SUB_SEC_TIME_DIGITIZED));
    if (time == null) {
      return new CameraClock(null, null);
    }
    findings.damaged(
        "The file has no time of the original; the time of its digitisation is used, because its"
            + " exposure settings show that it comes from a camera.");
    return new CameraClock(time, offset(block, Tags.OFFSET_TIME_DIGITIZED, digitized, findings));
  }

  private static boolean isFromCamera(TagDirectory exif) {
    return exif.has(Tags.EXPOSURE_TIME) || exif.has(Tags.F_NUMBER);
  }

  private static @Nullable ZoneOffset offset(
      ExifBlock block, int tag, @Nullable String timeText, Findings findings) {
    String text = block.exif().text(tag);
    if (text == null || BLANK_OFFSET.matcher(text).matches()) {
      boolean unchanged = timeText != null && timeText.equals(block.ifd0().text(Tags.DATE_TIME));
      text = unchanged ? block.exif().text(Tags.OFFSET_TIME) : null;
    }
    if (text == null || BLANK_OFFSET.matcher(text).matches()) {
      return null;
    }
    ZoneOffset offset = parseOffset(text);
    if (offset == null) {
      findings.damaged(
          "The time offset reads \"%s\"; expected one between -12:00 and +14:00; it is not used.",
          shortened(text));
    }
    return offset;
  }

  /** Reads an Exif date and time strictly; null when it is none. */
  static @Nullable LocalDateTime parse(String text, @Nullable String subSeconds) {
    Matcher matcher = DATE_TIME.matcher(text);
    if (!matcher.matches()) {
      return null;
    }
    String fraction = matcher.group(7);
    if (fraction == null && subSeconds != null && SUB_SECONDS.matcher(subSeconds).matches()) {
      fraction = subSeconds;
    }
    int nanos = fraction == null ? 0 : Integer.parseInt((fraction + "00000000").substring(0, 9));
    try {
      LocalDateTime time =
          LocalDateTime.of(
              Integer.parseInt(matcher.group(1)),
              Integer.parseInt(matcher.group(2)),
              Integer.parseInt(matcher.group(3)),
              Integer.parseInt(matcher.group(4)),
              Integer.parseInt(matcher.group(5)),
              Integer.parseInt(matcher.group(6)),
              nanos);
      return time.getYear() < FIRST_PHOTOGRAPH_YEAR ? null : time;
    } catch (DateTimeException e) {
      return null;
    }
  }

  /** Reads an Exif offset strictly; null when it is none or lies on no clock on earth. */
  static @Nullable ZoneOffset parseOffset(String text) {
    if (text.equals("Z")) {
      return ZoneOffset.UTC;
    }
    Matcher matcher = OFFSET.matcher(text);
    if (!matcher.matches() || Integer.parseInt(matcher.group(3)) > 59) {
      return null;
    }
    int size = Integer.parseInt(matcher.group(2)) * 3600 + Integer.parseInt(matcher.group(3)) * 60;
    int seconds = matcher.group(1).equals("-") ? -size : size;
    return seconds < LEAST_OFFSET_S || seconds > GREATEST_OFFSET_S
        ? null
        : ZoneOffset.ofTotalSeconds(seconds);
  }

  /** How cameras write "not set": spaces, or zeros, between the colons. */
  static boolean isBlank(String text) {
    return BLANK.matcher(text).matches();
  }

  /** A text of the file, short enough for one sentence. */
  static String shortened(String text) {
    return text.length() <= 40 ? text : text.substring(0, 40) + "…";
  }
}
