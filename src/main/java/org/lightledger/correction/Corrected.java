package org.lightledger.correction;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a correction did.
 *
 * @param id the number to undo it by, or null when it changed no shot
 * @param words what it was
 * @param outcomes what became of each shot, in the order of their numbers
 */
public record Corrected(@Nullable Long id, String words, List<Outcome> outcomes) {

  /** Keeps an own copy of the list. */
  public Corrected {
    outcomes = List.copyOf(outcomes);
  }

  /**
   * How many shots came out in a way.
   *
   * @param kind the way
   * @return the count
   */
  public int count(Outcome.Kind kind) {
    return (int) outcomes.stream().filter(outcome -> outcome.kind() == kind).count();
  }
}
