package org.lightledger.session.planner;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Sky;

/**
 * Plans sessions: chooses and orders stops among candidates so that the light wanted at each is
 * best, exactly on the grid of the request. The worth of a plan, in light minutes, is
 *
 * <pre>
 * sum over stops ( sum over minutes of shooting ( weight(light) x trust(tier) ) + 10 x warmth )
 *   - 0.1 x minutes of driving
 *   + 10 x weight x trust in the last minute of shooting
 *       x max(0, 1 - minutes from the session's end to the last good light / 60)
 * </pre>
 *
 * <p>with weight from the stop's {@link LightWeights}, trust 1 for light that was scouted, 0.95
 * where the skyline is known and 0.85 by the sun alone; the factors are own choices. The light is
 * that along the one facing used at the stop, minute by minute; each term is rounded to a
 * thousandth.
 *
 * <p>Rules: shooting begins and ends on the grid and lasts from the least to the wanted minutes of
 * the spot (rounded to the grid: the least up, the wanted down); between leaving one stop and
 * shooting at the next lie the drive, the handling on arrival, and a change of outfit if there is
 * one; an outfit is changed at most once between two stops, right after shooting at the first or
 * right before shooting at the second, and at most once within a stop, wherever that is a place to
 * change or a tent is there; exactly as many outfits are worn as wished; shooting and changing lie
 * within one opening window; from call time to end it takes no longer than the session's length. Of
 * plans of equal worth the one with the latest call time is taken, then the one with the fewest
 * stops, then one that depends on the numbers of the spots alone.
 *
 * <p>Safe for use by several threads.
 */
public final class Planner {
  private Planner() {}

  /**
   * The plan for another sky.
   *
   * @param outcome the plan, or why there is none
   * @param differs what differs from the other plan, in words; empty when nothing does
   */
  public record Alternative(PlanOutcome outcome, List<String> differs) {
    /** Keeps its own copy. */
    public Alternative {
      differs = List.copyOf(differs);
    }
  }

  /**
   * A plan in the owner's own order.
   *
   * @param outcome the plan with the best timing, or why there is none
   * @param lostLightMin how much less it is worth than the best plan, light minutes; null when one
   *     of the two does not exist
   * @param cost that in words
   */
  public record ByHand(PlanOutcome outcome, @Nullable Double lostLightMin, String cost) {}

  /**
   * Makes the best plan.
   *
   * @param request what it depends on
   * @return the plan, or the rules that stand in its way
   */
  public static PlanOutcome plan(PlanRequest request) {
    Problem problem = new Problem(request);
    if (problem.count == 0) {
      return new PlanOutcome.Refused(
          List.of(
              new Refusal(
                  Rule.EXCLUDED,
                  "Every candidate is excluded.",
                  "Take back an exclusion or add a candidate.")));
    }
    Solver solver = Solver.solve(problem);
    Optional<Solution> solution = solver.solution();
    if (solution.isEmpty()) {
      return new PlanOutcome.Refused(new Refusals(request).all());
    }
    List<Rejected> rejected = new Rejections(problem, solver, solution.get()).all();
    return new PlanOutcome.Planned(new PlanWriter(problem, solution.get()).write(rejected));
  }

  /**
   * Makes the plan for an overcast sky.
   *
   * @param request what the plan depends on
   * @param clear the plan for a clear sky
   * @return the other plan, and what differs
   */
  public static Alternative overcast(PlanRequest request, SessionPlan clear) {
    PlanOutcome outcome = plan(request.under(Sky.OVERCAST));
    if (outcome instanceof PlanOutcome.Planned planned) {
      return new Alternative(
          outcome, Differences.between(clear, planned.plan(), request.frame().zone()));
    }
    return new Alternative(outcome, List.of("Under an overcast sky there is no plan."));
  }

  /**
   * Gives the owner's own order its best timing and tells what it costs.
   *
   * @param request what the plan depends on; its locks and exclusions do not count here
   * @param order the spots in order, each a candidate, 1 to {@value StopLimits#MOST_STOPS}
   * @param times when shooting begins at some of them, by spot
   * @return the plan, and how much less it is worth than the best plan of the request
   * @throws IllegalArgumentException when the order names no spot, too many, one twice, or one that
   *     is no candidate
   */
  public static ByHand byHand(PlanRequest request, List<Long> order, Map<Long, Instant> times) {
    if (order.isEmpty() || order.size() > StopLimits.MOST_STOPS) {
      throw new IllegalArgumentException(
          "expected 1 to %d stops in the order, found %d"
              .formatted(StopLimits.MOST_STOPS, order.size()));
    }
    List<Long> known = request.candidates().stream().map(PlanCandidate::spotId).toList();
    for (long spotId : order) {
      if (!known.contains(spotId) || order.indexOf(spotId) != order.lastIndexOf(spotId)) {
        throw new IllegalArgumentException(
            "expected different candidates in the order (spots %s), found %s"
                .formatted(known, order));
      }
    }
    PlanRequest inOrder =
        request.each(
            candidate -> {
              int place = order.indexOf(candidate.spotId());
              return candidate.with(
                  place < 0
                      ? Claim.EXCLUDED
                      : new Claim(Claim.State.LOCKED, place + 1, times.get(candidate.spotId())));
            });
    StopLimits exactly = new StopLimits(order.size(), order.size(), request.limits().handlingMin());
    PlanOutcome outcome = plan(inOrder.with(exactly));
    Optional<Solution> best = Solver.solve(new Problem(request)).solution();
    if (!(outcome instanceof PlanOutcome.Planned planned)) {
      return new ByHand(outcome, null, "This order does not fit.");
    }
    if (best.isEmpty()) {
      return new ByHand(outcome, null, "There is no other plan to compare it with.");
    }
    long lost = best.get().worth() - Math.round(planned.plan().worthLightMin() * Worth.MILLI);
    return new ByHand(outcome, lost / (double) Worth.MILLI, cost(lost));
  }

  private static String cost(long lost) {
    if (lost == 0) {
      return "This order is worth as much as the best plan.";
    }
    return lost > 0
        ? "This order is worth " + Words.lightMinutes(lost) + " less than the best plan."
        : "This order is worth "
            + Words.lightMinutes(-lost)
            + " more than the best plan that keeps your locks and limits.";
  }
}
