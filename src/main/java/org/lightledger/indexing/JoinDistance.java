package org.lightledger.indexing;

import org.lightledger.store.LedgerSession;

/** How near to a spot a shot must be to join it: the owner's setting, kept in the ledger. */
public final class JoinDistance {
  private static final String NAME = "import.join-within-m";

  private JoinDistance() {}

  /**
   * The distance that holds.
   *
   * @param session a session of the ledger
   * @return metres, the standard unless the owner changed it
   */
  public static double of(LedgerSession session) {
    return session
        .settings()
        .find(NAME)
        .map(Double::parseDouble)
        .orElse(ImportOptions.STANDARD_JOIN_DISTANCE_M);
  }

  /**
   * Changes it for later imports. What is grouped already stays as it is.
   *
   * @param session a session that may write
   * @param joinDistanceM metres
   * @throws IllegalArgumentException when that is no distance to join spots
   */
  public static void set(LedgerSession session, double joinDistanceM) {
    ImportOptions.requireJoinDistance(joinDistanceM);
    session.settings().set(NAME, Double.toString(joinDistanceM));
  }
}
