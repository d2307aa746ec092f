package org.lightledger.ask;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.spot.Spot;

/**
 * What the ledger answers to a question.
 *
 * @param question the question
 * @param matches the best matches, best first, at most as many as were asked for
 * @param matched how many matches there are in all
 * @param suggestions spots without a facing: which way to face there; no matches
 * @param suggested how many suggestions there are in all
 * @param notKnown spots about which the question can not be answered, at most as many as were asked
 *     for
 * @param unanswered how many such spots there are in all
 * @param considered how many spots were looked at
 * @param hoursExist false when no spot has the asked hours at all: the clocks skip them, or the sun
 *     does not rise or set there
 * @param sunDown that there is no sun at the asked hours; null when there is, or when something has
 *     the light
 */
public record Answers(
    Question question,
    List<Answer> matches,
    int matched,
    List<Answer> suggestions,
    int suggested,
    List<NotKnown> notKnown,
    int unanswered,
    int considered,
    boolean hoursExist,
    @Nullable SunDown sunDown) {

  /** Keeps own copies of the lists. */
  public Answers {
    matches = List.copyOf(matches);
    suggestions = List.copyOf(suggestions);
    notKnown = List.copyOf(notKnown);
  }

  /**
   * A spot about which the question can not be answered.
   *
   * @param spot the spot
   * @param reason what is missing and what would settle it
   */
  public record NotKnown(Spot spot, String reason) {}
}
