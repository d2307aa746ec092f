package org.lightledger.session;

import java.time.Instant;
import java.util.Set;
import org.lightledger.spot.Trait;

/**
 * A client's answer to a question of the owner's.
 *
 * @param questionId the question
 * @param asked the question as it was put
 * @param words the answer, "" for none
 * @param places the kinds of place chosen
 * @param at when it arrived
 * @param byClient whether the client wrote it, else the owner typed it in
 */
public record Answer(
    long questionId, String asked, String words, Set<Trait> places, Instant at, boolean byClient) {
  private static final int LONGEST = 4000;

  /** Checks the length and keeps an own copy of the places. */
  public Answer {
    places = Set.copyOf(places);
    if (words.length() > LONGEST) {
      throw new IllegalArgumentException(
          "expected an answer of at most " + LONGEST + " characters, found " + words.length());
    }
  }
}
