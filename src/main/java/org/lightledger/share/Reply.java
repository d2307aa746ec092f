package org.lightledger.share;

import java.time.Instant;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.spot.Trait;

/**
 * What a client sends back. Spots and questions go by the names that {@link ShareKeys} gives them;
 * of what it does not name nothing changes, unless it is whole.
 *
 * @param favourites which spots the client marked as liked best, and which no longer
 * @param comments what the client says of spots
 * @param words what the client says of all of it
 * @param answers the answers to the owner's questions
 * @param savedAt when a file was saved, by the clock of the client's device; null for a form, and
 *     for a file of a page that was made before files told it
 * @param whole whether it says all of spots: then a spot that it does not name is no favourite and
 *     has no comment. Only files of pages that were made before a file told its changes are whole.
 */
public record Reply(
    Ticks<String> favourites,
    Map<String, Said> comments,
    Said words,
    Map<String, Answered> answers,
    @Nullable Instant savedAt,
    boolean whole) {
  /** The longest comment on one spot, characters: own choice. */
  public static final int LONGEST_COMMENT = 2000;

  /** The longest words on all, and the longest answer, characters: own choice. */
  public static final int LONGEST_WORDS = 4000;

  /** Checks the lengths and keeps own copies. */
  public Reply {
    comments = Map.copyOf(comments);
    answers = Map.copyOf(answers);
    comments.values().forEach(comment -> within("a comment", comment, LONGEST_COMMENT));
    within("the words on all", words, LONGEST_WORDS);
  }

  /**
   * An answer.
   *
   * @param words in the client's words
   * @param places kinds of place
   */
  public record Answered(Said words, Ticks<Trait> places) {
    /** Checks the length. */
    public Answered {
      within("an answer", words, LONGEST_WORDS);
    }

    /**
     * An answer that replaces whatever is kept.
     *
     * @param words in the client's words, "" for none
     * @param places kinds of place
     * @return the answer
     */
    public static Answered anew(String words, Set<Trait> places) {
      Set<Trait> others = EnumSet.allOf(Trait.class);
      others.removeAll(places);
      return new Answered(Said.anew(words), new Ticks<>(others, places));
    }

    /**
     * Whether the page showed an answer and something of it was changed to something else.
     *
     * @return false when it was left as it was, or emptied, and for an answer {@link #anew}
     */
    public boolean changesAnother() {
      boolean another =
          words.over() != null
              && (!words.over().equals(Said.fingerprint("")) || !places.shown().isEmpty());
      boolean isEmpty = words.words().isEmpty() && places.sent().isEmpty();
      return another && !isEmpty && (words.isChanged() || places.isChanged());
    }
  }

  private static void within(String what, Said said, int most) {
    if (said.words().length() > most) {
      throw new IllegalArgumentException(
          "expected "
              + what
              + " of at most "
              + most
              + " characters, found "
              + said.words().length());
    }
  }
}
