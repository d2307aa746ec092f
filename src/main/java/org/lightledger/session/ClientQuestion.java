package org.lightledger.session;

/**
 * A question that the owner puts to every client before a session.
 *
 * @param id the ledger's number of it, 0 before it has one
 * @param words the question
 * @param kind how it is answered
 */
public record ClientQuestion(long id, String words, Kind kind) {

  /** Checks the words. */
  public ClientQuestion {
    Texts.line("a question", words);
  }

  /** How a question is answered. */
  public enum Kind {
    /** In the client's own words. */
    WORDS,
    /** By choosing kinds of place; the answer steers which spots are proposed. */
    PLACES
  }
}
