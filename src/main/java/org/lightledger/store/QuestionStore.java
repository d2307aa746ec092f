package org.lightledger.store;

import java.util.List;

/** Questions that the owner keeps to put them again. */
public final class QuestionStore {
  private final LedgerSession session;

  QuestionStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * A kept question.
   *
   * @param id the ledger's number of it
   * @param name the owner's name for it
   * @param query the question as the address of the page writes it
   */
  public record Kept(long id, String name, String query) {}

  /**
   * All kept questions.
   *
   * @return by name
   */
  public List<Kept> all() {
    return session
        .call("SELECT id, name, query FROM questions ORDER BY name COLLATE NOCASE, id")
        .list(row -> new Kept(row.integer(), row.text(), row.text()));
  }

  /**
   * Keeps a question; one of the same name is replaced.
   *
   * @param name the owner's name for it, not blank
   * @param query the question as the address of the page writes it
   * @return the ledger's number of it
   * @throws LedgerException when the name is blank
   */
  public long keep(String name, String query) {
    session.changing(LedgerSession.Content.QUESTIONS);
    return session
        .call(
            "INSERT INTO questions (name, query) VALUES (?, ?)"
                + " ON CONFLICT (name) DO UPDATE SET query = excluded.query RETURNING id")
        .text(name)
        .text(query)
        .number();
  }

  /**
   * Forgets a question.
   *
   * @param id the ledger's number of it
   * @throws LedgerException when there is none
   */
  public void remove(long id) {
    session.changing(LedgerSession.Content.QUESTIONS);
    if (session.call("DELETE FROM questions WHERE id = ?").integer(id).run() == 0) {
      throw LedgerException.notFound("question", id);
    }
  }
}
