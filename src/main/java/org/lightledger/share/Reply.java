package org.lightledger.share;

import java.util.Map;
import java.util.Set;
import org.lightledger.spot.Trait;

/**
 * What a client sends back. Spots and questions go by the names that {@link ShareKeys} gives them.
 *
 * @param favourites the spots that the client likes best
 * @param comments what the client says of spots
 * @param words what the client says of all of it, "" for nothing
 * @param answers the answers to the owner's questions
 */
public record Reply(
    Set<String> favourites,
    Map<String, String> comments,
    String words,
    Map<String, Answered> answers) {
  /** The longest comment on one spot, characters: own choice. */
  public static final int LONGEST_COMMENT = 2000;

  /** The longest words on all, and the longest answer, characters: own choice. */
  public static final int LONGEST_WORDS = 4000;

  /** Checks the lengths and keeps own copies. */
  public Reply {
    favourites = Set.copyOf(favourites);
    comments = Map.copyOf(comments);
    answers = Map.copyOf(answers);
    comments.values().forEach(comment -> within("a comment", comment, LONGEST_COMMENT));
    within("the words on all", words, LONGEST_WORDS);
  }

  /**
   * An answer.
   *
   * @param words in the client's words, "" for none
   * @param places kinds of place
   */
  public record Answered(String words, Set<Trait> places) {
    /** Checks the length and keeps an own copy. */
    public Answered {
      places = Set.copyOf(places);
      within("an answer", words, LONGEST_WORDS);
    }

    /**
     * Whether nothing was answered.
     *
     * @return true without words and places
     */
    public boolean isEmpty() {
      return words.isEmpty() && places.isEmpty();
    }
  }

  private static void within(String what, String text, int most) {
    if (text.length() > most) {
      throw new IllegalArgumentException(
          "expected " + what + " of at most " + most + " characters, found " + text.length());
    }
  }
}
