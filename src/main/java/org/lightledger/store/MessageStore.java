package org.lightledger.store;

import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import org.lightledger.session.MessageKind;
import org.lightledger.session.SentMessage;
import org.lightledger.session.outgoing.StandardTemplates;
import org.lightledger.session.outgoing.Template;

/** The owner's wording of messages, and what went out. */
public final class MessageStore {
  private final LedgerSession session;

  MessageStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * The wording of a message.
   *
   * @param kind of which
   * @return the owner's, else the standard one
   * @throws LedgerException when some other program wrote one that can not be used
   */
  public Template template(MessageKind kind) {
    return ownTemplate(kind).orElseGet(() -> StandardTemplates.of(kind));
  }

  /**
   * The owner's wording of a message.
   *
   * @param kind of which
   * @return the wording, or nothing while the standard one holds
   */
  public Optional<Template> ownTemplate(MessageKind kind) {
    return session
        .call("SELECT subject, body FROM templates WHERE kind = ?")
        .name(kind)
        .first(row -> readTemplate(kind, row));
  }

  /**
   * Keeps the owner's wording.
   *
   * @param template the wording
   */
  public void keep(Template template) {
    session.changing(LedgerSession.Content.TEMPLATES);
    session
        .call(
            "INSERT INTO templates (kind, subject, body) VALUES (?, ?, ?)"
                + " ON CONFLICT (kind) DO UPDATE SET subject = excluded.subject,"
                + " body = excluded.body")
        .name(template.kind())
        .text(template.subject())
        .text(template.body())
        .run();
  }

  /**
   * Forgets the owner's wording, so that the standard one holds again.
   *
   * @param kind of which message
   */
  public void forget(MessageKind kind) {
    session.changing(LedgerSession.Content.TEMPLATES);
    session.call("DELETE FROM templates WHERE kind = ?").name(kind).run();
  }

  /**
   * Notes what went out.
   *
   * @param sessionId the ledger's number of the session
   * @param message what went out, as it did
   * @return the ledger's number of it
   * @throws LedgerException when there is no such session
   */
  public long sent(long sessionId, SentMessage message) {
    session.changing(LedgerSession.Content.SENT_MESSAGES);
    return session
        .call(
            "INSERT INTO sent_messages (session_id, kind, way, recipient, subject, body, at_ms)"
                + " VALUES (?, ?, ?, ?, ?, ?, ?) RETURNING id")
        .integer(sessionId)
        .name(message.kind())
        .name(message.way())
        .text(message.to())
        .text(message.subject())
        .text(message.body())
        .millis(message.at())
        .number();
  }

  /**
   * What went out about a session.
   *
   * @param sessionId the ledger's number of the session
   * @return the newest first
   */
  public List<SentMessage> ofSession(long sessionId) {
    return session
        .call(
            "SELECT kind, way, recipient, subject, body, at_ms FROM sent_messages"
                + " WHERE session_id = ? ORDER BY at_ms DESC, id DESC")
        .integer(sessionId)
        .list(MessageStore::read);
  }

  private static Template readTemplate(MessageKind kind, Row row) throws SQLException {
    try {
      return new Template(kind, row.text(), row.text());
    } catch (IllegalArgumentException e) {
      throw LedgerException.foreign("the template of the " + kind.label() + " message", e);
    }
  }

  private static SentMessage read(Row row) throws SQLException {
    return new SentMessage(
        MessageKind.valueOf(row.text()),
        SentMessage.Way.valueOf(row.text()),
        row.text(),
        row.text(),
        row.text(),
        row.instant());
  }
}
