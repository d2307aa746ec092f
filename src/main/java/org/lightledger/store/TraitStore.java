package org.lightledger.store;

import java.util.EnumSet;
import java.util.HashSet;
import java.util.Set;
import org.lightledger.spot.Trait;

/** What spots are and have, by the owner's word. */
public final class TraitStore {
  private final LedgerSession session;

  TraitStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * What a spot is and has.
   *
   * @param spotId the ledger's number of the spot
   * @return its traits
   */
  public Set<Trait> of(long spotId) {
    Set<Trait> traits = EnumSet.noneOf(Trait.class);
    session
        .call("SELECT trait FROM spot_traits WHERE spot_id = ?")
        .integer(spotId)
        .each(row -> traits.add(Trait.valueOf(row.text())));
    return traits;
  }

  /**
   * Keeps what a spot is and has.
   *
   * @param spotId the ledger's number of the spot
   * @param traits its traits, in place of those before
   * @throws LedgerException when there is no such spot
   */
  public void set(long spotId, Set<Trait> traits) {
    session.changing(LedgerSession.Content.SPOT_TRAITS);
    session.call("DELETE FROM spot_traits WHERE spot_id = ?").integer(spotId).run();
    for (Trait trait : traits) {
      session
          .call("INSERT INTO spot_traits (spot_id, trait) VALUES (?, ?)")
          .integer(spotId)
          .name(trait)
          .run();
    }
  }

  /**
   * The spots that are or have something.
   *
   * @param traits what; none for nothing
   * @return the numbers of the spots with all of them
   */
  public Set<Long> spotsWith(Set<Trait> traits) {
    Set<Long> spots = null;
    for (Trait trait : traits) {
      Set<Long> having = new HashSet<>();
      session
          .call("SELECT spot_id FROM spot_traits WHERE trait = ?")
          .name(trait)
          .each(row -> having.add(row.integer()));
      if (spots == null) {
        spots = having;
      } else {
        spots.retainAll(having);
      }
    }
    return spots == null ? Set.of() : spots;
  }
}
