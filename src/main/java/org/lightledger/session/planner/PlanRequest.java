package org.lightledger.session.planner;

import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.lightledger.ask.Sky;
import org.lightledger.session.drive.DriveTable;

/**
 * Everything that a plan depends on.
 *
 * @param frame when the session is
 * @param limits how many stops it makes
 * @param outfits what is worn
 * @param sky what the sky is like
 * @param candidates the spots that may become stops, at most {@value #MOST_CANDIDATES}; kept in the
 *     order of their numbers, so that a plan does not depend on the order in which they came
 * @param drives how long it takes from each to each
 * @param spares other spots that can stand in for a stop
 */
public record PlanRequest(
    SessionFrame frame,
    StopLimits limits,
    OutfitWish outfits,
    Sky sky,
    List<PlanCandidate> candidates,
    DriveTable drives,
    List<Spare> spares) {

  /** With more candidates an exact plan would take too long; the owner picks first. */
  public static final int MOST_CANDIDATES = 20;

  /**
   * Checks the request and keeps its own copies.
   *
   * @throws IllegalArgumentException when there are no or too many candidates, or one twice
   */
  public PlanRequest {
    if (candidates.isEmpty() || candidates.size() > MOST_CANDIDATES) {
      throw new IllegalArgumentException(
          "expected 1 to %d candidates, found %d; exclude some of them first"
              .formatted(MOST_CANDIDATES, candidates.size()));
    }
    Set<Long> seen = new HashSet<>();
    for (PlanCandidate candidate : candidates) {
      if (!seen.add(candidate.spotId())) {
        throw new IllegalArgumentException(
            "expected each spot once among the candidates, found spot %d (%s) twice"
                .formatted(candidate.spotId(), candidate.name()));
      }
    }
    candidates =
        candidates.stream().sorted(Comparator.comparingLong(PlanCandidate::spotId)).toList();
    spares = List.copyOf(spares);
  }

  /** The same request under another sky. */
  PlanRequest under(Sky other) {
    return new PlanRequest(frame, limits, outfits, other, candidates, drives, spares);
  }

  /** The same request at another time. */
  PlanRequest in(SessionFrame other) {
    return new PlanRequest(other, limits, outfits, sky, candidates, drives, spares);
  }

  /** The same request with other limits. */
  PlanRequest with(StopLimits other) {
    return new PlanRequest(frame, other, outfits, sky, candidates, drives, spares);
  }

  /** The same request with other outfits. */
  PlanRequest with(OutfitWish other) {
    return new PlanRequest(frame, limits, other, sky, candidates, drives, spares);
  }

  /** The same request with each candidate changed. */
  PlanRequest each(UnaryOperator<PlanCandidate> change) {
    return new PlanRequest(
        frame, limits, outfits, sky, candidates.stream().map(change).toList(), drives, spares);
  }
}
