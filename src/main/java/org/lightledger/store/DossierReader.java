package org.lightledger.store;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Client;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.session.outgoing.Dossier;
import org.lightledger.spot.Spot;

/** Reads everything that may be needed of a session on its way out. */
public final class DossierReader {
  private DossierReader() {}

  /**
   * Reads it.
   *
   * @param ledger the stores
   * @param sessionId the ledger's number of the session
   * @return the dossier, or nothing when there is no such session
   */
  public static Optional<Dossier> read(LedgerSession ledger, long sessionId) {
    return ledger.sessions().find(sessionId).map(session -> dossier(ledger, session));
  }

  private static Dossier dossier(LedgerSession ledger, Session session) {
    Client client =
        ledger
            .clients()
            .find(session.clientId())
            .orElseThrow(() -> LedgerException.notFound("client", session.clientId()));
    KeptPlan plan = ledger.plans().find(session.id()).orElse(null);
    Map<Long, Spot> spots = new HashMap<>();
    for (long id : spotIds(plan)) {
      ledger.spots().find(id).ifPresent(spot -> spots.put(id, spot));
    }
    return new Dossier(
        session,
        client,
        plan,
        spots,
        spots.isEmpty() ? Map.of() : ledger.skylines().ofSpots(spots.keySet()),
        spots.keySet().stream()
            .collect(Collectors.toMap(Function.identity(), id -> ledger.hazards().of(id))),
        ledger.questionnaire().questions(),
        ledger.questionnaire().answers(session.id()),
        ledger.packing().items(session.id()));
  }

  private static Set<Long> spotIds(@Nullable KeptPlan plan) {
    Set<Long> ids = new TreeSet<>();
    if (plan != null) {
      for (KeptPlan.Stop stop : plan.stops()) {
        ids.add(stop.spotId());
        if (stop.fallbackSpotId() != null) {
          ids.add(stop.fallbackSpotId());
        }
      }
    }
    return ids;
  }
}
