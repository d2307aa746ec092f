package org.lightledger.session.planner;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Plans against every plan that there is, and against the rules. */
class PlannerTest {
  private static final int CASES = 300;

  @Test
  void noPlanIsBetterThanThePlan() {
    RandomRequests requests = new RandomRequests(20261125);
    int planned = 0;
    for (int i = 0; i < CASES; i++) {
      PlanRequest request = requests.next(7, 12);
      EveryPlan every = new EveryPlan(request);
      PlanOutcome outcome = Planner.plan(request);
      if (outcome instanceof PlanOutcome.Planned found) {
        planned++;
        SessionPlan plan = found.plan();
        assertThat(milli(plan.worthLightMin())).as("case %d", i).isEqualTo(every.best);
        assertThat(plan.stops().stream().mapToLong(stop -> milli(stop.worthLightMin())).sum())
            .as("case %d", i)
            .isEqualTo(every.best);
        for (Rejected rejected : plan.rejected()) {
          Long with = every.bestWith.get(rejected.spotId());
          assertThat(rejected.lostLightMin() == null).as("case %d", i).isEqualTo(with == null);
          if (with != null && rejected.lostLightMin() != null) {
            assertThat(milli(rejected.lostLightMin())).isEqualTo(every.best - with);
          }
        }
        new KeepsTheRules(request, plan).check("case " + i);
      } else {
        assertThat(every.plans).as("plans in case %d, which was refused", i).isZero();
      }
    }
    assertThat(planned).isBetween(CASES / 2, CASES - 20);
  }

  @Test
  void everyRefusalNamesARuleThatWouldHelp() {
    RandomRequests requests = new RandomRequests(7);
    int refused = 0;
    for (int i = 0; i < 120; i++) {
      PlanRequest request = requests.next(4, 7);
      if (Planner.plan(request) instanceof PlanOutcome.Refused found) {
        refused++;
        assertThat(found.refusals()).isNotEmpty();
        for (Refusal refusal : found.refusals()) {
          assertThat(refusal.found()).endsWith(".");
          assertThat(refusal.help()).endsWith(".").hasSizeGreaterThan(10);
        }
      }
    }
    assertThat(refused).isGreaterThan(20);
  }

  @Test
  void aPlanDoesNotDependOnTheOrderOfTheCandidates() {
    RandomRequests requests = new RandomRequests(3);
    Random random = new Random(5);
    for (int i = 0; i < 40; i++) {
      PlanRequest request = requests.next(6, 14);
      List<PlanCandidate> shuffled = new ArrayList<>(request.candidates());
      Collections.shuffle(shuffled, random);
      PlanRequest other =
          new PlanRequest(
              request.frame(),
              request.limits(),
              request.outfits(),
              request.sky(),
              shuffled,
              request.drives(),
              request.spares());

      assertThat(Planner.plan(other)).isEqualTo(Planner.plan(request));
    }
  }

  @Test
  void thePlansOwnOrderCostsNothingAndAnyOtherNoLessThanNothing() {
    RandomRequests requests = new RandomRequests(11);
    int compared = 0;
    for (int i = 0; i < 60; i++) {
      PlanRequest request = requests.next(6, 14);
      if (Planner.plan(request) instanceof PlanOutcome.Planned found
          && found.plan().stops().size() > 1) {
        SessionPlan plan = found.plan();
        Map<Long, Instant> times =
            Map.of(plan.stops().get(0).spotId(), plan.stops().get(0).shootFrom());
        Planner.ByHand same = Planner.byHand(request, plan.order(), times);
        assertThat(same.lostLightMin()).as("case %d", i).isEqualTo(0.0);
        List<Long> reversed = new ArrayList<>(plan.order());
        Collections.reverse(reversed);
        Planner.ByHand other = Planner.byHand(request, reversed, Map.of());
        boolean free =
            request.candidates().stream().allMatch(c -> c.claim().state() == Claim.State.FREE);
        if (other.lostLightMin() != null && free) {
          compared++;
          assertThat(other.lostLightMin()).isNotNegative();
        }
      }
    }
    assertThat(compared).isPositive();
  }

  private static long milli(double lightMin) {
    return Math.round(1000 * lightMin);
  }

  /** Reads a plan as its owner does and holds it against the request. */
  private record KeepsTheRules(PlanRequest request, SessionPlan plan) {

    void check(String name) {
      SessionFrame frame = request.frame();
      assertThat(plan.callTime()).as(name).isAfterOrEqualTo(frame.earliestStart());
      assertThat(plan.end()).as(name).isBeforeOrEqualTo(frame.latestEnd());
      assertThat(Duration.between(plan.callTime(), plan.end()).toMinutes())
          .as(name)
          .isLessThanOrEqualTo(frame.lengthMin());
      assertThat(plan.stops())
          .as(name)
          .hasSizeBetween(request.limits().least(), request.limits().most());
      assertThat(plan.order()).as(name).doesNotHaveDuplicates();
      Instant left = plan.callTime();
      int outfit = 1;
      for (int i = 0; i < plan.stops().size(); i++) {
        PlannedStop stop = plan.stops().get(i);
        drive(name, i, left);
        outfit += stop.changeBefore() == null ? 0 : 1;
        assertThat(stop.outfit()).as(name).isEqualTo(outfit);
        changes(name, i);
        outfit += stop.changeWithin() == null ? 0 : 1;
        stay(name, i);
        left = stop.leave();
      }
      assertThat(outfit).as(name).isEqualTo(request.outfits().outfits());
      assertThat(plan.end()).as(name).isEqualTo(left);
      for (PlanCandidate candidate : request.candidates()) {
        if (candidate.claim().state() != Claim.State.FREE) {
          assertThat(plan.order().contains(candidate.spotId()))
              .as(name)
              .isEqualTo(candidate.claim().state() == Claim.State.LOCKED);
        }
      }
    }

    private void drive(String name, int index, Instant left) {
      PlannedStop stop = plan.stops().get(index);
      int minutes = 0;
      if (index > 0) {
        long before = plan.order().get(index - 1);
        minutes = request.drives().between(before, stop.spotId()).orElseThrow().minutes();
      } else if (request.drives().hasMeetingSpot()) {
        minutes = request.drives().fromMeeting(stop.spotId()).orElseThrow().minutes();
      }
      assertThat(Duration.between(left, stop.arrive()).toMinutes()).as(name).isEqualTo(minutes);
      Instant ready = stop.arrive().plus(Duration.ofMinutes(request.limits().handlingMin()));
      OutfitChange change = stop.changeBefore();
      boolean here = change != null && change.spotId() == stop.spotId();
      assertThat(here ? change.from() : stop.shootFrom()).as(name).isAfterOrEqualTo(ready);
      assertThat(stop.leave()).as(name).isAfterOrEqualTo(stop.shootUntil());
    }

    private void changes(String name, int index) {
      PlannedStop stop = plan.stops().get(index);
      for (OutfitChange change : both(stop)) {
        assertThat(Duration.between(change.from(), change.until()).toMinutes())
            .as(name)
            .isGreaterThanOrEqualTo(request.outfits().changeMin());
        PlanCandidate at = candidate(change.spotId());
        assertThat(at.placeToChange() || request.outfits().tent()).as(name).isTrue();
        assertThat(isOpen(at, change.from(), change.until())).as(name).isTrue();
      }
      OutfitChange before = stop.changeBefore();
      if (before != null && before.spotId() != stop.spotId()) {
        PlannedStop other = plan.stops().get(index - 1);
        assertThat(before.spotId()).as(name).isEqualTo(other.spotId());
        assertThat(before.from()).as(name).isAfterOrEqualTo(other.shootUntil());
        assertThat(before.until()).as(name).isBeforeOrEqualTo(other.leave());
      }
    }

    private void stay(String name, int index) {
      PlannedStop stop = plan.stops().get(index);
      PlanCandidate candidate = candidate(stop.spotId());
      int gridMin = request.frame().gridMin();
      assertThat(stop.shootingMin()).as(name).isGreaterThanOrEqualTo(candidate.leastMin());
      assertThat(stop.shootingMin())
          .as(name)
          .isLessThan(Math.max(candidate.leastMin() + gridMin, candidate.wantedMin() + 1));
      assertThat(isOpen(candidate, stop.shootFrom(), stop.shootUntil())).as(name).isTrue();
      if (candidate.claim().position() != null) {
        assertThat(candidate.claim().position()).as(name).isEqualTo(index + 1);
      }
      if (candidate.claim().shootFrom() != null) {
        assertThat(Duration.between(candidate.claim().shootFrom(), stop.shootFrom()))
            .as(name)
            .isBetween(Duration.ZERO, Duration.ofMinutes(gridMin));
      }
    }

    private static List<OutfitChange> both(PlannedStop stop) {
      List<OutfitChange> changes = new ArrayList<>();
      if (stop.changeBefore() != null) {
        changes.add(stop.changeBefore());
      }
      if (stop.changeWithin() != null) {
        changes.add(stop.changeWithin());
      }
      return changes;
    }

    private PlanCandidate candidate(long spotId) {
      return request.candidates().stream()
          .filter(found -> found.spotId() == spotId)
          .findFirst()
          .orElseThrow();
    }

    private static boolean isOpen(PlanCandidate candidate, Instant from, Instant until) {
      return candidate.open().isEmpty()
          || candidate.open().stream()
              .anyMatch(w -> !w.opens().isAfter(from) && !w.closes().isBefore(until));
    }
  }
}
