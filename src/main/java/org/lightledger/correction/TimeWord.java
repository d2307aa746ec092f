package org.lightledger.correction;

import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.ClockCorrection;

/** What the owner says about when shots were taken. */
public sealed interface TimeWord {

  /**
   * What it is, for the list of corrections.
   *
   * @return a few words
   */
  String words();

  /**
   * The camera's clock was wrong.
   *
   * @param correction what to add to the reading in the file; replaces an earlier correction
   */
  record Clock(ClockCorrection correction) implements TimeWord {
    @Override
    public String words() {
      return "camera's clock corrected by " + correction.toText();
    }
  }

  /**
   * The camera's clock was wrong by as much as one shot shows.
   *
   * @param shotId the shot whose true local time is known
   * @param truth what a right clock in the same zone said at that moment
   */
  record ClockOf(long shotId, LocalDateTime truth) implements TimeWord {
    @Override
    public String words() {
      return "camera's clock corrected from one shot";
    }
  }

  /**
   * The camera's clock was set to this zone.
   *
   * @param zone a zone, or an offset from UTC
   */
  record Zone(ZoneId zone) implements TimeWord {
    @Override
    public String words() {
      return "camera's clock was on " + zone.getId() + " time";
    }
  }

  /**
   * Of the instants that fit, the one with this offset is right.
   *
   * @param offset the offset from UTC
   */
  record Choice(ZoneOffset offset) implements TimeWord {
    @Override
    public String words() {
      return "time at UTC" + (offset.equals(ZoneOffset.UTC) ? "" : offset.getId()) + " chosen";
    }
  }

  /**
   * The time, by hand.
   *
   * @param local what a right clock showed
   * @param zone its zone or offset, or null for the zone of the place
   */
  record ByHand(LocalDateTime local, @Nullable ZoneId zone) implements TimeWord {
    @Override
    public String words() {
      return "time given by hand";
    }
  }
}
