package org.lightledger.session.outgoing;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Answer;
import org.lightledger.session.Client;
import org.lightledger.session.ClientQuestion;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.PackItem;
import org.lightledger.session.Session;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Spot;

/**
 * Everything the ledger holds of a session that may be needed on its way out. It is the owner's:
 * what a client sees passes {@link SessionRedaction} first.
 *
 * @param session the session
 * @param client its client
 * @param plan the kept plan, or null while there is none
 * @param spots the spots of the plan and their fallbacks, by number
 * @param skylines what stands around them, by number; absent where nothing is known
 * @param hazards what is dangerous or forbidden at them, by number; absent where nothing is
 * @param questions what the owner asks every client
 * @param answers what the client answered
 * @param packing what is packed
 */
public record Dossier(
    Session session,
    Client client,
    @Nullable KeptPlan plan,
    Map<Long, Spot> spots,
    Map<Long, Skyline> skylines,
    Map<Long, Set<Hazard>> hazards,
    List<ClientQuestion> questions,
    List<Answer> answers,
    List<PackItem> packing) {

  /** Keeps own copies. */
  public Dossier {
    spots = Map.copyOf(spots);
    skylines = Map.copyOf(skylines);
    hazards = Map.copyOf(hazards);
    questions = List.copyOf(questions);
    answers = List.copyOf(answers);
    packing = List.copyOf(packing);
  }

  /** The spot of a stop. */
  Spot spot(long id) {
    Spot spot = spots.get(id);
    if (spot == null) {
      throw new IllegalStateException("expected spot " + id + " of the plan, found none");
    }
    return spot;
  }

  /** The hazards of a spot. */
  Set<Hazard> hazards(long id) {
    return hazards.getOrDefault(id, Set.of());
  }
}
