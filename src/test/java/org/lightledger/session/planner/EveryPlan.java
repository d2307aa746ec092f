package org.lightledger.session.planner;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.lightledger.ask.Answer;
import org.lightledger.session.drive.Drive;

/**
 * Tries out every plan of a request, minute by minute, from the rules as they are written down, and
 * keeps the most that any is worth: by spot, and over all.
 */
final class EveryPlan {
  private final PlanRequest request;
  private final SessionFrame frame;
  private final int lastMoment;
  private final int lastGood;

  long best = Long.MIN_VALUE;
  final Map<Long, Long> bestWith = new HashMap<>();
  long plans;

  EveryPlan(PlanRequest request) {
    this.request = request;
    this.frame = request.frame();
    this.lastMoment = (int) Duration.between(frame.earliestStart(), frame.latestEnd()).toMinutes();
    this.lastGood = lastGood();
    for (int call = 0; call <= lastMoment; call += frame.gridMin()) {
      go(new State(call, call, null, List.of(), 0, 0));
    }
  }

  /** So far: all in minutes of the frame. */
  private record State(
      int call, int now, PlanCandidate here, List<PlanCandidate> made, int changes, long worth) {}

  private void go(State state) {
    if (state.made().size() == request.limits().most()) {
      return;
    }
    for (PlanCandidate next : request.candidates()) {
      if (!state.made().contains(next) && next.claim().state() != Claim.State.EXCLUDED) {
        Optional<Integer> drive = driveMin(state.here(), next);
        if (drive.isPresent()) {
          shootFromAnyMoment(state, next, drive.get());
        }
      }
    }
  }

  private Optional<Integer> driveMin(PlanCandidate from, PlanCandidate to) {
    if (from != null) {
      return request.drives().between(from.spotId(), to.spotId()).map(Drive::minutes);
    }
    return request.drives().hasMeetingSpot()
        ? request.drives().fromMeeting(to.spotId()).map(Drive::minutes)
        : Optional.of(0);
  }

  private void shootFromAnyMoment(State state, PlanCandidate next, int driveMin) {
    int handling = request.limits().handlingMin();
    int change = request.outfits().changeMin();
    for (int from = 0; from <= lastMoment; from += frame.gridMin()) {
      if (from < state.now() + driveMin + handling || !claimHolds(state, next, from)) {
        continue;
      }
      shoot(state, next, from, driveMin, 0);
      boolean time = from >= state.now() + driveMin + handling + change;
      boolean there =
          state.here() != null
              && mayChange(state.here())
              && open(state.here(), state.now(), state.now() + change);
      boolean here = mayChange(next) && open(next, from - change, from);
      if (state.here() != null && time && (there || here)) {
        shoot(state, next, from, driveMin, 1);
      }
    }
  }

  private boolean claimHolds(State state, PlanCandidate next, int from) {
    Integer position = next.claim().position();
    Instant shootFrom = next.claim().shootFrom();
    if (position != null && position != state.made().size() + 1) {
      return false;
    }
    if (shootFrom == null) {
      return true;
    }
    Instant at = frame.earliestStart().plus(Duration.ofMinutes(from));
    return !at.isBefore(shootFrom)
        && at.minus(Duration.ofMinutes(frame.gridMin())).isBefore(shootFrom);
  }

  private void shoot(State state, PlanCandidate next, int from, int driveMin, int changedBefore) {
    int grid = frame.gridMin();
    int changeOnGrid = (request.outfits().changeMin() + grid - 1) / grid * grid;
    long before = state.worth() - 100L * driveMin + Math.round(1000 * 10 * next.warmth());
    int least = (next.leastMin() + grid - 1) / grid * grid;
    int most = Math.max(least, next.wantedMin() / grid * grid);
    for (int length = least; length <= most; length += grid) {
      end(state, next, from, new int[] {from, from + length}, new int[] {}, before, changedBefore);
      int worn = Math.min(least, (10 + grid - 1) / grid * grid);
      for (int cut = worn; cut <= length - worn && mayChange(next); cut += grid) {
        int[] first = {from, from + cut};
        int[] second = {from + cut + changeOnGrid, from + length + changeOnGrid};
        end(state, next, from, first, second, before, changedBefore + 1);
      }
    }
  }

  private void end(
      State state,
      PlanCandidate next,
      int from,
      int[] first,
      int[] second,
      long before,
      int newChanges) {
    int until = second.length == 0 ? first[1] : second[1];
    int changes = state.changes() + newChanges;
    int lengthOnGrid = frame.lengthMin() / frame.gridMin() * frame.gridMin();
    if (until > lastMoment
        || until - state.call() > lengthOnGrid
        || changes > request.outfits().outfits() - 1
        || !open(next, from, until)) {
      return;
    }
    List<PlanCandidate> made = new ArrayList<>(state.made());
    made.add(next);
    long most = Long.MIN_VALUE;
    for (SpotSunlight.AlongFacing along : next.clear().alongFacings()) {
      long light = sum(next, along, first) + (second.length == 0 ? 0 : sum(next, along, second));
      most = Math.max(most, light);
      if (made.size() >= request.limits().least()
          && changes == request.outfits().outfits() - 1
          && request.candidates().stream()
              .allMatch(c -> c.claim().state() != Claim.State.LOCKED || made.contains(c))) {
        long last = worthOf(next, along, until - 1);
        double near = Math.max(0, 1 - Math.abs(lastGood - until) / 60.0);
        plan(made, before + light + Math.round(last * 10.0 * near));
      }
    }
    go(new State(state.call(), until, next, made, changes, before + most));
  }

  private void plan(List<PlanCandidate> made, long worth) {
    plans++;
    best = Math.max(best, worth);
    for (PlanCandidate stop : made) {
      bestWith.merge(stop.spotId(), worth, Math::max);
    }
  }

  private boolean mayChange(PlanCandidate candidate) {
    return candidate.placeToChange() || request.outfits().tent();
  }

  private boolean open(PlanCandidate candidate, int fromMin, int untilMin) {
    Instant from = frame.earliestStart().plus(Duration.ofMinutes(fromMin));
    Instant until = frame.earliestStart().plus(Duration.ofMinutes(untilMin));
    return candidate.open().isEmpty()
        || candidate.open().stream()
            .anyMatch(w -> !w.opens().isAfter(from) && !w.closes().isBefore(until));
  }

  private long sum(PlanCandidate candidate, SpotSunlight.AlongFacing along, int[] stretch) {
    long sum = 0;
    for (int minute = stretch[0]; minute < stretch[1]; minute++) {
      sum += worthOf(candidate, along, minute);
    }
    return sum;
  }

  private long worthOf(PlanCandidate candidate, SpotSunlight.AlongFacing along, int minute) {
    Instant at = frame.earliestStart().plus(Duration.ofMinutes(minute));
    int told = (int) Duration.between(candidate.clear().from(), at).toMinutes();
    if (told >= along.minutes().size()) {
      return 0;
    }
    SpotSunlight.Minute light = along.minutes().get(told);
    double weight = candidate.weights().byClass().getOrDefault(light.light(), 0.0);
    double trust =
        light.tier() == Answer.Tier.SCOUTED ? 1 : light.tier() == Answer.Tier.MODELLED ? .95 : .85;
    return Math.round(1000 * weight * trust);
  }

  private int lastGood() {
    int last = 0;
    for (PlanCandidate candidate : request.candidates()) {
      for (SpotSunlight.AlongFacing along : candidate.clear().alongFacings()) {
        for (int minute = 0; minute < lastMoment; minute++) {
          Instant at = frame.earliestStart().plus(Duration.ofMinutes(minute));
          int told = (int) Duration.between(candidate.clear().from(), at).toMinutes();
          if (told < along.minutes().size()
              && candidate.weights().wants(along.minutes().get(told).light())) {
            last = Math.max(last, minute + 1);
          }
        }
      }
    }
    return last;
  }
}
