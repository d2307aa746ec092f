package org.lightledger.store;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** All that hangs on a session: what belongs to its client, and what goes when it is deleted. */
public final class SessionRecords {
  /** What of a session belongs to its client, by table. */
  private static final Map<String, Counted> CLIENTS = clients();

  /** Each table whose rows hang on sessions, and what one row is. */
  private static final Map<String, Counted> TABLES = tables();

  private final LedgerSession session;

  SessionRecords(LedgerSession session) {
    this.session = session;
  }

  /** What one row is, and what several are. */
  private record Counted(String one, String many) {
    String words(long count) {
      return count + " " + (count == 1 ? one : many);
    }
  }

  private static Map<String, Counted> clients() {
    Map<String, Counted> tables = new LinkedHashMap<>();
    tables.put("shares", new Counted("share", "shares"));
    tables.put("answers", new Counted("answer", "answers"));
    tables.put("sent_messages", new Counted("sent message", "sent messages"));
    return tables;
  }

  private static Map<String, Counted> tables() {
    Map<String, Counted> tables = new LinkedHashMap<>();
    tables.put("plans", new Counted("plan", "plans"));
    tables.put("session_candidates", new Counted("candidate", "candidates"));
    tables.put("session_items", new Counted("thing to pack", "things to pack"));
    tables.putAll(CLIENTS);
    return tables;
  }

  /** Says that what hangs on sessions is about to change. */
  void touch() {
    for (LedgerSession.Content content :
        List.of(
            LedgerSession.Content.SESSIONS,
            LedgerSession.Content.SESSION_CANDIDATES,
            LedgerSession.Content.PLANS,
            LedgerSession.Content.PLAN_STOPS,
            LedgerSession.Content.PLAN_CHANGES,
            LedgerSession.Content.ANSWERS,
            LedgerSession.Content.SENT_MESSAGES,
            LedgerSession.Content.SESSION_ITEMS,
            LedgerSession.Content.CALENDAR_ENTRIES,
            LedgerSession.Content.SHARES,
            LedgerSession.Content.SHARE_PICKS,
            LedgerSession.Content.OUTFIT_PICTURES)) {
      session.changing(content);
    }
  }

  /**
   * What hangs on a session.
   *
   * @param id the ledger's number of the session
   * @return for example "1 plan" and "3 answers"; what it has none of is left out
   */
  public List<String> held(long id) {
    return counts(TABLES, id);
  }

  /**
   * Why a session can not become another client's. What a client was shown or said belongs to that
   * client: it would be shown to one and handed over to the other.
   *
   * @param id the ledger's number of the session
   * @param clientId the client for whom it is to be
   * @return what was found, expected, and what to do; nothing when it can, or is that client's
   */
  public Optional<String> whyNotFor(long id, long clientId) {
    boolean anothers =
        session
                .call("SELECT count(*) FROM sessions WHERE id = ? AND client_id <> ?")
                .integer(id)
                .integer(clientId)
                .number()
            > 0;
    List<String> held = anothers ? counts(CLIENTS, id) : List.of();
    return held.isEmpty()
        ? Optional.empty()
        : Optional.of(
            "expected a session without shares, answers and sent messages to give to another"
                + " client, found "
                + String.join(", ", held)
                + " of the one who has it; cancel this one, and book a new session for the other");
  }

  private List<String> counts(Map<String, Counted> tables, long id) {
    List<String> counts = new ArrayList<>();
    tables.forEach(
        (table, what) -> {
          long count =
              session
                  .call("SELECT count(*) FROM " + table + " WHERE session_id = ?")
                  .integer(id)
                  .number();
          if (count > 0) {
            counts.add(what.words(count));
          }
        });
    return counts;
  }

  /**
   * Deletes a session with all that hangs on it; its shares open nothing any more. Shots stay, as
   * evidence of light. The bytes are gone from the file after {@link Ledger#scrub}.
   *
   * @param id the ledger's number of the session
   * @throws LedgerException when there is no such session
   */
  public void delete(long id) {
    touch();
    if (session.call("DELETE FROM sessions WHERE id = ?").integer(id).run() == 0) {
      throw LedgerException.notFound("session", id);
    }
  }
}
