package org.lightledger.correction;

import java.util.List;

/**
 * What a correction did to one shot.
 *
 * @param shotId the ledger's number of the shot
 * @param kind what became of it
 * @param why what the owner should know: why nothing changed, what is missing still, what else
 *     changed; may be empty for a shot that is fixed
 */
public record Outcome(long shotId, Kind kind, List<String> why) {

  /** Keeps an own copy of the list. */
  public Outcome {
    why = List.copyOf(why);
  }

  /** What can become of a shot. */
  public enum Kind {
    /** Changed, and nothing is missing. */
    FIXED,
    /** Changed, and something is missing still. */
    STILL_WAITING,
    /** Not changed. */
    UNCHANGED
  }
}
