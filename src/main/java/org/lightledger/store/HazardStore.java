package org.lightledger.store;

import java.util.Collections;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import org.lightledger.spot.Hazard;

/** What is dangerous or forbidden at spots, by the owner's word. */
public final class HazardStore {
  private final LedgerSession session;

  HazardStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * The hazards of a spot.
   *
   * @param spotId the ledger's number of the spot
   * @return its hazards
   */
  public Set<Hazard> of(long spotId) {
    Set<Hazard> hazards = EnumSet.noneOf(Hazard.class);
    session
        .call("SELECT hazard FROM spot_hazards WHERE spot_id = ?")
        .integer(spotId)
        .each(row -> hazards.add(Hazard.valueOf(row.text())));
    return hazards;
  }

  /**
   * The hazards of all spots.
   *
   * @return by the spot's number; spots without any are absent
   */
  public Map<Long, Set<Hazard>> all() {
    Map<Long, Set<Hazard>> all = new HashMap<>();
    session
        .call("SELECT spot_id, hazard FROM spot_hazards")
        .each(
            row ->
                all.computeIfAbsent(row.integer(), id -> EnumSet.noneOf(Hazard.class))
                    .add(Hazard.valueOf(row.text())));
    return Collections.unmodifiableMap(all);
  }

  /**
   * Keeps the hazards of a spot.
   *
   * @param spotId the ledger's number of the spot
   * @param hazards its hazards, in place of those before
   * @throws LedgerException when there is no such spot
   */
  public void set(long spotId, Set<Hazard> hazards) {
    if (of(spotId).equals(hazards)) {
      return;
    }
    session.changing(LedgerSession.Content.SPOT_HAZARDS);
    session.call("DELETE FROM spot_hazards WHERE spot_id = ?").integer(spotId).run();
    for (Hazard hazard : hazards) {
      session
          .call("INSERT INTO spot_hazards (spot_id, hazard) VALUES (?, ?)")
          .integer(spotId)
          .name(hazard)
          .run();
    }
  }
}
