package org.lightledger.web;

import java.time.OffsetDateTime;
import org.lightledger.ask.SunDown;

/** Says why there is no sun at the asked hours, and what to ask instead. */
final class SunDownWords {
  private SunDownWords() {}

  static String when(SunDown down) {
    OffsetDateTime set = down.set();
    OffsetDateTime rises = down.rises();
    String event =
        set != null
            ? "it set at " + Words.hour(set)
            : rises != null ? "it rises at " + Words.hour(rises) : "it does not rise";
    return "at "
        + down.spot().name()
        + " "
        + event
        + " on "
        + Words.day(down.at().toLocalDate())
        + ".";
  }

  static String advice(SunDown down) {
    String other =
        down.set() != null
            ? "an hour before sunset"
            : down.rises() != null ? "an hour after sunrise" : "another day";
    return "Ask for " + other + ", or for twilight or dark.";
  }
}
