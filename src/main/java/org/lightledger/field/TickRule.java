package org.lightledger.field;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * Which of two ticks counts when a thing was ticked on the phone and at home: the later one. The
 * other is kept in the words of the entry.
 */
public final class TickRule {
  private TickRule() {}

  /**
   * A state of a tick, and since when.
   *
   * @param done whether it is ticked
   * @param since when it was last changed, or null when it never was
   */
  public record State(boolean done, @Nullable Instant since) {}

  /**
   * What counts.
   *
   * @param applies whether the phone's word counts
   * @param at the moment that is kept for it
   * @param conflict whether the ledger's own word differs and was said after the phone took the
   *     list along
   */
  public record Verdict(boolean applies, Instant at, boolean conflict) {}

  /**
   * Decides.
   *
   * @param ledger what the ledger holds
   * @param done what was said on the phone
   * @param madeAt when, by the phone's clock
   * @param takenAt when the phone took the list along, by the ledger's clock
   * @param now the present, by the ledger's clock: a phone that is ahead of it can not win by that
   * @return what counts
   */
  public static Verdict decide(
      State ledger, boolean done, Instant madeAt, Instant takenAt, Instant now) {
    Instant at = madeAt.isAfter(now) ? now : madeAt;
    Instant since = ledger.since();
    boolean applies = since == null || !since.isAfter(at);
    boolean conflict = ledger.done() != done && since != null && since.isAfter(takenAt);
    return new Verdict(applies, at, conflict);
  }
}
