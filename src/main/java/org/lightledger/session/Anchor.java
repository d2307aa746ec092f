package org.lightledger.session;

import java.time.DateTimeException;
import java.time.LocalTime;
import org.jspecify.annotations.Nullable;

/** What fixes a session in its day. */
public sealed interface Anchor {

  /**
   * How the ledger, the command line and forms write it; {@link #parse} reads it.
   *
   * @return for example "ends-sunset+0", "ends-19:30", "starts-16:00"
   */
  String code();

  /**
   * It ends so many minutes after the sun has set, by the sunset that follows the day's noon.
   *
   * @param minutesAfter minutes after sunset, negative before it, [-300, 90]
   */
  record EndsAtSunset(int minutesAfter) implements Anchor {
    private static final int EARLIEST = -300;
    private static final int LATEST = 90;

    /** Checks the bounds. */
    public EndsAtSunset {
      Texts.within("minutes after sunset", minutesAfter, EARLIEST, LATEST);
    }

    @Override
    public String code() {
      return ENDS_AT_SUNSET + (minutesAfter < 0 ? "" : "+") + minutesAfter;
    }
  }

  /**
   * It ends at a time of the place's clock, on the next day when it would start too early else.
   *
   * @param time the time
   */
  record EndsAt(LocalTime time) implements Anchor {
    @Override
    public String code() {
      return ENDS + time;
    }
  }

  /**
   * It starts at a time of the place's clock.
   *
   * @param time the time
   */
  record StartsAt(LocalTime time) implements Anchor {
    @Override
    public String code() {
      return STARTS + time;
    }
  }

  /** Opens the code of {@link EndsAtSunset}. */
  String ENDS_AT_SUNSET = "ends-sunset";

  /** Opens the code of {@link EndsAt}. */
  String ENDS = "ends-";

  /** Opens the code of {@link StartsAt}. */
  String STARTS = "starts-";

  /**
   * Reads a code.
   *
   * @param code as {@link #code} writes it; "ends-sunset" alone is at sunset
   * @return the anchor
   * @throws IllegalArgumentException naming what was found and what is possible
   */
  static Anchor parse(String code) {
    try {
      if (code.startsWith(ENDS_AT_SUNSET)) {
        String minutes = code.substring(ENDS_AT_SUNSET.length());
        return new EndsAtSunset(minutes.isEmpty() ? 0 : Integer.parseInt(minutes));
      }
      if (code.startsWith(ENDS)) {
        return new EndsAt(LocalTime.parse(code.substring(ENDS.length())));
      }
      if (code.startsWith(STARTS)) {
        return new StartsAt(LocalTime.parse(code.substring(STARTS.length())));
      }
    } catch (NumberFormatException | DateTimeException e) {
      throw unreadable(code, e);
    }
    throw unreadable(code, null);
  }

  private static IllegalArgumentException unreadable(String code, @Nullable Exception cause) {
    return new IllegalArgumentException(
        "expected ends-sunset, ends-sunset-20 (minutes), ends-19:30 or starts-16:00; found \""
            + code
            + "\"",
        cause);
  }
}
