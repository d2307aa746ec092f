package org.lightledger.store;

import java.sql.SQLException;
import java.util.HashSet;
import java.util.List;
import java.util.stream.Collectors;
import org.lightledger.session.Answer;
import org.lightledger.session.ClientQuestion;
import org.lightledger.spot.Trait;

/** What the owner asks every client, and what clients answer. */
public final class QuestionnaireStore {
  private final LedgerSession session;

  QuestionnaireStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * The questions.
   *
   * @return in the owner's order
   */
  public List<ClientQuestion> questions() {
    return session
        .call("SELECT id, words, kind FROM client_questions ORDER BY place, id")
        .list(QuestionnaireStore::readQuestion);
  }

  /**
   * Adds a question at the end.
   *
   * @param question the question; its number does not count
   * @return the ledger's number of it
   */
  public long add(ClientQuestion question) {
    session.changing(LedgerSession.Content.CLIENT_QUESTIONS);
    return session
        .call(
            "INSERT INTO client_questions (place, words, kind) VALUES"
                + " ((SELECT coalesce(max(place) + 1, 0) FROM client_questions), ?, ?)"
                + " RETURNING id")
        .text(question.words())
        .name(question.kind())
        .number();
  }

  /**
   * Changes a question. Answers keep the question as it was put.
   *
   * @param question the question with its number
   * @throws LedgerException when there is no such question
   */
  public void update(ClientQuestion question) {
    session.changing(LedgerSession.Content.CLIENT_QUESTIONS);
    requireOne(
        question.id(),
        session
            .call("UPDATE client_questions SET (words, kind) = (?, ?) WHERE id = ?")
            .text(question.words())
            .name(question.kind())
            .integer(question.id())
            .run());
  }

  /**
   * Removes a question. Answers that were given stay.
   *
   * @param id the ledger's number of it
   * @throws LedgerException when there is none
   */
  public void remove(long id) {
    session.changing(LedgerSession.Content.CLIENT_QUESTIONS);
    requireOne(id, session.call("DELETE FROM client_questions WHERE id = ?").integer(id).run());
  }

  /**
   * Puts the questions into another order.
   *
   * @param ids the numbers of all questions, each once
   * @throws IllegalArgumentException when one is missing or named twice
   */
  public void reorder(List<Long> ids) {
    List<Long> present = questions().stream().map(ClientQuestion::id).toList();
    if (ids.size() != present.size() || !new HashSet<>(ids).equals(new HashSet<>(present))) {
      throw new IllegalArgumentException(
          "expected the questions "
              + present
              + " in another order, found "
              + ids
              + "; they may have changed meanwhile, so look at them again");
    }
    session.changing(LedgerSession.Content.CLIENT_QUESTIONS);
    for (int place = 0; place < ids.size(); place++) {
      session
          .call("UPDATE client_questions SET place = ? WHERE id = ?")
          .integer(place)
          .integer(ids.get(place).longValue())
          .run();
    }
  }

  /**
   * What a client answered for a session.
   *
   * @param sessionId the ledger's number of the session
   * @return in the order of the questions; to questions that are no more at the end
   */
  public List<Answer> answers(long sessionId) {
    return session
        .call(
            "SELECT a.id, a.question_id, a.asked, a.words, a.places, a.at_ms, a.by_client"
                + " FROM answers a LEFT JOIN client_questions q ON q.id = a.question_id"
                + " WHERE a.session_id = ? ORDER BY q.place IS NULL, q.place, a.id")
        .integer(sessionId)
        .list(QuestionnaireStore::readAnswer);
  }

  /**
   * Keeps an answer, in place of the one before.
   *
   * @param sessionId the ledger's number of the session
   * @param answer the answer
   * @throws LedgerException when there is no such session
   */
  public void answer(long sessionId, Answer answer) {
    session.changing(LedgerSession.Content.ANSWERS);
    session
        .call(
            "INSERT INTO answers (session_id, question_id, asked, words, places, at_ms, by_client)"
                + " VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT (session_id, question_id) DO UPDATE"
                + " SET asked = excluded.asked, words = excluded.words, places = excluded.places,"
                + " at_ms = excluded.at_ms, by_client = excluded.by_client")
        .integer(sessionId)
        .integer(answer.questionId())
        .text(answer.asked())
        .text(answer.words())
        .text(Json.ofTexts(answer.places().stream().sorted().map(Trait::name).toList()))
        .millis(answer.at())
        .flag(answer.byClient())
        .run();
  }

  /**
   * Takes an answer back.
   *
   * @param sessionId the ledger's number of the session
   * @param questionId the question
   */
  public void removeAnswer(long sessionId, long questionId) {
    session.changing(LedgerSession.Content.ANSWERS);
    session
        .call("DELETE FROM answers WHERE session_id = ? AND question_id = ?")
        .integer(sessionId)
        .integer(questionId)
        .run();
  }

  private static ClientQuestion readQuestion(Row row) throws SQLException {
    long id = row.integer();
    try {
      return new ClientQuestion(id, row.text(), ClientQuestion.Kind.valueOf(row.text()));
    } catch (IllegalArgumentException e) {
      throw LedgerException.foreign("client question " + id, e);
    }
  }

  private static Answer readAnswer(Row row) throws SQLException {
    long id = row.integer();
    try {
      return new Answer(
          row.integer(),
          row.text(),
          row.text(),
          Json.texts(row.text()).stream().map(Trait::valueOf).collect(Collectors.toSet()),
          row.instant(),
          row.flag());
    } catch (IllegalArgumentException e) {
      throw LedgerException.foreign("answer " + id, e);
    }
  }

  private static void requireOne(long id, int changed) {
    if (changed == 0) {
      throw LedgerException.notFound("client question", id);
    }
  }
}
