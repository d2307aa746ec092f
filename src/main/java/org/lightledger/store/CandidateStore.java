package org.lightledger.store;

import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.LocalTime;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.lightledger.light.LightClass;
import org.lightledger.session.Candidate;

/** The spots that sessions may stop at, in the owner's order. */
public final class CandidateStore {
  private final LedgerSession session;

  CandidateStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * The candidates of a session.
   *
   * @param sessionId the ledger's number of the session
   * @return in the owner's order
   */
  public List<Candidate> of(long sessionId) {
    return session
        .call(
            "SELECT id, spot_id, choice, wanted, stay_min, arrival FROM session_candidates"
                + " WHERE session_id = ? ORDER BY place, id")
        .integer(sessionId)
        .list(CandidateStore::read);
  }

  /**
   * Says what a spot is to a session; a new one comes at the end.
   *
   * @param sessionId the ledger's number of the session
   * @param candidate the spot and what the owner says of it, in place of what was said before
   * @throws LedgerException when there is no such session or spot
   */
  public void put(long sessionId, Candidate candidate) {
    session.changing(LedgerSession.Content.SESSION_CANDIDATES);
    session
        .call(
            "INSERT INTO session_candidates (session_id, place, spot_id, choice, wanted, stay_min,"
                + " arrival) VALUES (?1, (SELECT coalesce(max(place) + 1, 0)"
                + " FROM session_candidates WHERE session_id = ?1), ?2, ?3, ?4, ?5, ?6)"
                + " ON CONFLICT (session_id, spot_id) DO UPDATE SET choice = excluded.choice,"
                + " wanted = excluded.wanted, stay_min = excluded.stay_min,"
                + " arrival = excluded.arrival")
        .integer(sessionId)
        .integer(candidate.spotId())
        .name(candidate.choice())
        .text(Json.ofTexts(candidate.wanted().stream().sorted().map(LightClass::name).toList()))
        .integer(candidate.stayMinutes())
        .textOf(candidate.arrival())
        .run();
  }

  /**
   * Takes a spot off a session.
   *
   * @param sessionId the ledger's number of the session
   * @param spotId the spot
   * @throws LedgerException when it is no candidate of the session
   */
  public void remove(long sessionId, long spotId) {
    session.changing(LedgerSession.Content.SESSION_CANDIDATES);
    int removed =
        session
            .call("DELETE FROM session_candidates WHERE session_id = ? AND spot_id = ?")
            .integer(sessionId)
            .integer(spotId)
            .run();
    if (removed == 0) {
      throw LedgerException.notFound("candidate of session " + sessionId, spotId);
    }
  }

  /**
   * Puts the candidates of a session into another order.
   *
   * @param sessionId the ledger's number of the session
   * @param spotIds the spots of all its candidates, each once
   * @throws IllegalArgumentException when one is missing, named twice, or no candidate
   */
  public void reorder(long sessionId, List<Long> spotIds) {
    Set<Long> present = of(sessionId).stream().map(Candidate::spotId).collect(Collectors.toSet());
    if (spotIds.size() != present.size() || !new HashSet<>(spotIds).equals(present)) {
      throw new IllegalArgumentException(
          "expected the spots "
              + present.stream().sorted().toList()
              + " of session "
              + sessionId
              + " in another order, found "
              + spotIds
              + "; they may have changed meanwhile, so look at them again");
    }
    session.changing(LedgerSession.Content.SESSION_CANDIDATES);
    for (int place = 0; place < spotIds.size(); place++) {
      session
          .call("UPDATE session_candidates SET place = ? WHERE session_id = ? AND spot_id = ?")
          .integer(place)
          .integer(sessionId)
          .integer(spotIds.get(place).longValue())
          .run();
    }
  }

  private static Candidate read(Row row) throws SQLException {
    long id = row.integer();
    try {
      long spotId = row.integer();
      Candidate.Choice choice = Candidate.Choice.valueOf(row.text());
      Set<LightClass> wanted =
          Json.texts(row.text()).stream().map(LightClass::valueOf).collect(Collectors.toSet());
      Integer stayMinutes = row.wholeOrNull();
      String arrival = row.textOrNull();
      return new Candidate(
          spotId, choice, wanted, stayMinutes, arrival == null ? null : LocalTime.parse(arrival));
    } catch (IllegalArgumentException | DateTimeException e) {
      throw LedgerException.foreign("session candidate " + id, e);
    }
  }
}
