package org.lightledger.session.planner;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.function.IntFunction;

/** Finds the rules without which there would be a plan, and how much each would have to give. */
final class Refusals {
  /** A session is not stretched by more than this, minutes. Own choice. */
  private static final int MOST_MORE_MIN = 240;

  private final PlanRequest request;

  Refusals(PlanRequest request) {
    this.request = request;
  }

  List<Refusal> all() {
    List<Refusal> refusals = new ArrayList<>();
    length(refusals);
    outfits(refusals);
    stops(refusals);
    opening(refusals);
    locks(refusals);
    drives(refusals);
    if (refusals.isEmpty()) {
      refusals.add(new Conflict(request, Refusals::feasible).refusal());
    }
    return refusals;
  }

  private void length(List<Refusal> refusals) {
    int span = request.frame().spanMin();
    int length = request.frame().lengthMin();
    OptionalInt longer = least(more -> request.in(request.frame().longer(more, 0)));
    if (longer.isPresent()) {
      refusals.add(
          new Refusal(
              Rule.LENGTH,
              "The session is to last " + Words.minutes(length) + " at most.",
              "It needs " + Words.minutes(longer.getAsInt()) + " more."));
      return;
    }
    OptionalInt later = least(more -> request.in(request.frame().longer(0, more)));
    if (later.isPresent()) {
      refusals.add(
          new Refusal(
              Rule.LATEST_END,
              "Between earliest start and latest end lie " + Words.minutes(span) + ".",
              "It needs to end "
                  + Words.minutes(later.getAsInt())
                  + " later, or to start as much earlier."));
      return;
    }
    OptionalInt both = least(more -> request.in(request.frame().longer(more, more)));
    if (both.isPresent()) {
      refusals.add(
          new Refusal(
              Rule.LENGTH,
              "The session is to last %s at most, and between earliest start and latest end lie %s."
                  .formatted(Words.minutes(length), Words.minutes(span)),
              "It needs " + Words.minutes(both.getAsInt()) + " more of both."));
    }
  }

  private void outfits(List<Refusal> refusals) {
    OutfitWish wish = request.outfits();
    if (wish.outfits() == 1) {
      return;
    }
    boolean told = false;
    if (!wish.tent()) {
      told = feasible(request.with(new OutfitWish(wish.outfits(), wish.changeMin(), true)));
    }
    int fewer = wish.outfits() - 1;
    while (fewer >= 1
        && !feasible(request.with(new OutfitWish(fewer, wish.changeMin(), wish.tent())))) {
      fewer--;
    }
    if (told || fewer >= 1) {
      refusals.add(
          new Refusal(
              Rule.OUTFITS,
              "%s are to be worn, with %s for each change at a place to change."
                  .formatted(
                      Words.sentence(Words.count(wish.outfits(), "outfit", "outfits")),
                      Words.minutes(wish.changeMin())),
              Words.sentence(
                  (told ? "a changing tent would help" : "")
                      + (told && fewer >= 1 ? "; " : "")
                      + (fewer >= 1 ? Words.count(fewer, "outfit", "outfits") + " would fit" : "")
                      + ".")));
    }
  }

  private void stops(List<Refusal> refusals) {
    StopLimits limits = request.limits();
    for (int least = limits.least() - 1; least >= 1; least--) {
      StopLimits fewer = new StopLimits(least, limits.most(), limits.handlingMin());
      if (feasible(request.with(fewer))) {
        refusals.add(
            new Refusal(
                Rule.STOPS,
                "There are to be at least " + Words.count(limits.least(), "stop", "stops") + ".",
                Words.sentence(Words.count(least, "stop", "stops")) + " would fit."));
        return;
      }
    }
    for (int most = limits.most() + 1; most <= StopLimits.MOST_STOPS; most++) {
      StopLimits more = new StopLimits(limits.least(), most, limits.handlingMin());
      if (feasible(request.with(more))) {
        refusals.add(
            new Refusal(
                Rule.STOPS,
                "There are to be at most " + Words.count(limits.most(), "stop", "stops") + ".",
                Words.sentence(Words.count(most, "stop", "stops")) + " would fit."));
        return;
      }
    }
  }

  private void opening(List<Refusal> refusals) {
    List<String> names =
        request.candidates().stream()
            .filter(
                candidate ->
                    !candidate.open().isEmpty()
                        && candidate.claim().state() != Claim.State.EXCLUDED
                        && feasible(
                            request.each(
                                other ->
                                    other.spotId() == candidate.spotId()
                                        ? other.alwaysOpen()
                                        : other)))
            .map(PlanCandidate::name)
            .toList();
    if (!names.isEmpty()) {
      refusals.add(
          new Refusal(
              Rule.OPENING,
              "Shooting and changing must lie within opening hours.",
              "Longer hours at " + String.join(" or ", names) + " would help."));
    }
  }

  private void locks(List<Refusal> refusals) {
    for (PlanCandidate candidate : request.candidates()) {
      Claim claim = candidate.claim();
      if (claim.state() == Claim.State.EXCLUDED) {
        if (feasible(instead(candidate, Claim.FREE))) {
          refusals.add(
              new Refusal(
                  Rule.EXCLUDED,
                  candidate.name() + " is excluded.",
                  "There is a plan if it may be a stop."));
        }
      } else if (claim.position() != null || claim.shootFrom() != null) {
        if (feasible(instead(candidate, Claim.LOCKED))) {
          refusals.add(
              new Refusal(
                  Rule.ORDER,
                  candidate.name() + " is locked to its place in the order or its time.",
                  "There is a plan with it at another place or time."));
        }
      }
      if (claim.state() == Claim.State.LOCKED && feasible(instead(candidate, Claim.FREE))) {
        refusals.add(
            new Refusal(
                Rule.LOCK,
                candidate.name() + " must be a stop.",
                "There is a plan if it need not be."));
      }
    }
  }

  private void drives(List<Refusal> refusals) {
    Problem problem = new Problem(request);
    List<String> cutOff = new ArrayList<>();
    for (int to = 0; to < problem.count; to++) {
      boolean reached = problem.firstReadyMin[to] != Problem.NO_WAY;
      for (int from = 0; from < problem.count; from++) {
        reached |= from != to && problem.readyMin[from][to] != Problem.NO_WAY;
      }
      if (!reached) {
        cutOff.add(problem.candidates.get(to).name());
      }
    }
    if (!cutOff.isEmpty()) {
      refusals.add(
          new Refusal(
              Rule.DRIVE,
              "No drive leads to " + String.join(", ", cutOff) + ".",
              "Tell your own minutes for the way there."));
    }
  }

  private PlanRequest instead(PlanCandidate candidate, Claim claim) {
    return request.each(other -> other.spotId() == candidate.spotId() ? other.with(claim) : other);
  }

  /** The least number of minutes, by steps of the grid, with which there is a plan. */
  private OptionalInt least(IntFunction<PlanRequest> withMore) {
    int gridMin = request.frame().gridMin();
    int most = mostMoreMin(request.frame()) / gridMin;
    if (most < 1 || !feasible(withMore.apply(most * gridMin))) {
      return OptionalInt.empty();
    }
    int enough = most;
    int tooFew = 0;
    while (enough - tooFew > 1) {
      int middle = (enough + tooFew) / 2;
      if (feasible(withMore.apply(middle * gridMin))) {
        enough = middle;
      } else {
        tooFew = middle;
      }
    }
    return OptionalInt.of(enough * gridMin);
  }

  /** How much a session can be stretched, whole steps of its grid, in minutes; 0 or more. */
  static int mostMoreMin(SessionFrame frame) {
    int room = 1440 - Math.max(frame.lengthMin(), frame.spanMin());
    return Math.max(0, Math.min(MOST_MORE_MIN, room) / frame.gridMin() * frame.gridMin());
  }

  private static boolean feasible(PlanRequest request) {
    Problem problem = new Problem(request);
    return problem.count > 0 && Solver.isFeasible(problem);
  }
}
