package org.lightledger.session.planner;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;

/**
 * Finds rules that together leave no plan when none of them does alone: all give way, then one
 * after the other is kept again where there is a plan all the same. What has to give in the end is
 * as little as can be: without any part of it there is no plan. Kept first is what was agreed with
 * the client; the owner's own decisions give way rather.
 */
final class Conflict {
  private final PlanRequest request;
  private final Predicate<PlanRequest> feasible;

  /**
   * A rule that gives way.
   *
   * @param rule the rule
   * @param found what it asks, without a full stop
   * @param gives what helps, without a full stop
   * @param without makes a request without it
   */
  record Loosened(Rule rule, String found, String gives, UnaryOperator<PlanRequest> without) {}

  Conflict(PlanRequest request, Predicate<PlanRequest> feasible) {
    this.request = request;
    this.feasible = feasible;
  }

  /** What stands in the way, in words. */
  Refusal refusal() {
    List<Loosened> giving = giving();
    if (giving.isEmpty()) {
      return new Refusal(
          Rule.DRIVE,
          "Even with more time, one outfit, one stop, and without locks and opening hours there is"
              + " no plan.",
          "Look at the drives, and at how long the shortest stay at each spot is.");
    }
    return new Refusal(
        giving.get(0).rule(),
        "Together these leave no plan: " + joined(giving, Loosened::found),
        "There is one with all of this: " + joined(giving, Loosened::gives));
  }

  private static String joined(List<Loosened> giving, Function<Loosened, String> words) {
    return giving.stream().map(words).collect(Collectors.joining("; ", "", "."));
  }

  /** The rules that have to give, or none when that is not enough. */
  List<Loosened> giving() {
    List<Loosened> giving = all();
    if (!feasible.test(without(giving))) {
      return List.of();
    }
    for (Loosened kept : List.copyOf(giving)) {
      List<Loosened> others = new ArrayList<>(giving);
      others.remove(kept);
      if (feasible.test(without(others))) {
        giving = others;
      }
    }
    return giving;
  }

  PlanRequest without(List<Loosened> giving) {
    PlanRequest loosened = request;
    for (Loosened rule : giving) {
      loosened = rule.without().apply(loosened);
    }
    return loosened;
  }

  private List<Loosened> all() {
    List<Loosened> all = new ArrayList<>();
    time(all);
    outfits(all);
    stops(all);
    for (PlanCandidate candidate : request.candidates()) {
      opening(all, candidate);
    }
    for (PlanCandidate candidate : request.candidates()) {
      claim(all, candidate);
    }
    return all;
  }

  private void time(List<Loosened> all) {
    SessionFrame frame = request.frame();
    int more = Refusals.mostMoreMin(frame);
    if (more > 0) {
      all.add(
          new Loosened(
              Rule.LENGTH,
              "the session lasts at most "
                  + Words.minutes(frame.lengthMin())
                  + " and ends by "
                  + Words.hour(frame.latestEnd(), frame.zone()),
              "up to " + Words.minutes(more) + " more",
              loosened -> loosened.in(frame.longer(more, more))));
    }
  }

  private void outfits(List<Loosened> all) {
    OutfitWish wish = request.outfits();
    if (wish.outfits() == 1) {
      return;
    }
    String found = Words.count(wish.outfits(), "outfit", "outfits") + " are to be worn";
    all.add(
        new Loosened(
            Rule.OUTFITS,
            found,
            "one outfit",
            loosened ->
                loosened.with(new OutfitWish(1, wish.changeMin(), loosened.outfits().tent()))));
    if (!wish.tent()) {
      all.add(
          new Loosened(
              Rule.OUTFITS,
              found + " without a changing tent",
              "a changing tent",
              loosened ->
                  loosened.with(
                      new OutfitWish(loosened.outfits().outfits(), wish.changeMin(), true))));
    }
  }

  private void stops(List<Loosened> all) {
    StopLimits limits = request.limits();
    if (limits.least() > 1) {
      all.add(
          new Loosened(
              Rule.STOPS,
              "there are to be at least " + Words.count(limits.least(), "stop", "stops"),
              "one stop",
              loosened ->
                  loosened.with(
                      new StopLimits(1, loosened.limits().most(), limits.handlingMin()))));
    }
    if (limits.most() < StopLimits.MOST_STOPS) {
      all.add(
          new Loosened(
              Rule.STOPS,
              "there are to be at most " + Words.count(limits.most(), "stop", "stops"),
              "up to " + Words.count(StopLimits.MOST_STOPS, "stop", "stops"),
              loosened ->
                  loosened.with(
                      new StopLimits(
                          loosened.limits().least(),
                          StopLimits.MOST_STOPS,
                          limits.handlingMin()))));
    }
  }

  private static void opening(List<Loosened> all, PlanCandidate candidate) {
    if (!candidate.open().isEmpty()) {
      all.add(
          new Loosened(
              Rule.OPENING,
              candidate.name() + " keeps its opening hours",
              "longer hours at " + candidate.name(),
              changing(candidate, PlanCandidate::alwaysOpen)));
    }
  }

  /** A lock to a place or a time gives way before the lock itself, which makes it void. */
  private static void claim(List<Loosened> all, PlanCandidate candidate) {
    Claim claim = candidate.claim();
    String name = candidate.name();
    if (claim.position() != null || claim.shootFrom() != null) {
      all.add(
          new Loosened(
              Rule.ORDER,
              name + " is locked to its place in the order or its time",
              name + " at another place or time",
              changing(candidate, other -> other.with(Claim.LOCKED))));
    }
    if (claim.state() == Claim.State.LOCKED) {
      all.add(
          new Loosened(
              Rule.LOCK,
              name + " must be a stop",
              name + " as no stop",
              changing(candidate, other -> other.with(Claim.FREE))));
    }
    if (claim.state() == Claim.State.EXCLUDED) {
      all.add(
          new Loosened(
              Rule.EXCLUDED,
              name + " is excluded",
              name + " as a stop",
              changing(candidate, other -> other.with(Claim.FREE))));
    }
  }

  private static UnaryOperator<PlanRequest> changing(
      PlanCandidate candidate, UnaryOperator<PlanCandidate> change) {
    return loosened ->
        loosened.each(other -> other.spotId() == candidate.spotId() ? change.apply(other) : other);
  }
}
