package org.lightledger.session.planner;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class ConflictTest {
  private static final LocalTime FOUR = LocalTime.of(16, 0);
  private static final LocalTime SUNSET = LocalTime.of(17, 50);

  private static boolean solved(PlanRequest request) {
    return Solver.isFeasible(new Problem(request));
  }

  /** By trying out every plan, with nothing of the planner's own search. */
  private static boolean triedOut(PlanRequest request) {
    return new EveryPlan(request).plans > 0;
  }

  @Test
  void whatGivesWayLeadsToAPlanAndNothingOfItCanBeSpared() {
    RandomRequests requests = new RandomRequests(11);
    int tried = 0;
    int together = 0;
    for (int i = 0; i < 900; i++) {
      PlanRequest request = requests.next(4, 7);
      if (solved(request)) {
        continue;
      }
      Conflict conflict = new Conflict(request, ConflictTest::solved);
      List<Conflict.Loosened> giving = conflict.giving();
      if (giving.isEmpty() || giving.stream().anyMatch(rule -> rule.rule() == Rule.LENGTH)) {
        continue;
      }
      tried++;
      together += giving.size() > 1 ? 1 : 0;
      assertThat(triedOut(conflict.without(giving))).as("case %d", i).isTrue();
      for (Conflict.Loosened kept : giving) {
        List<Conflict.Loosened> others = new ArrayList<>(giving);
        others.remove(kept);
        assertThat(triedOut(conflict.without(others))).as("case %d: %s", i, kept).isFalse();
      }
    }
    assertThat(tried).isGreaterThan(100);
    assertThat(together).isGreaterThan(20);
  }

  @Test
  void rulesThatBlockOnlyTogetherAreNamedTogether() {
    // Nobody can change at these spots, and 20 minutes are one stay of 15 after 5 of handling.
    PlanRequest request =
        new Evening(FOUR, SUNSET, 20)
            .spot(1, "Reed Bank", 235, 0)
            .spot(3, "Mill Wall", 235, 0)
            .spot(5, "Chapel Steps", 235, 0)
            .request(new StopLimits(3, 3, 5), new OutfitWish(2, 10, false));

    assertThat(((PlanOutcome.Refused) Planner.plan(request)).refusals())
        .containsExactly(
            new Refusal(
                Rule.OUTFITS,
                "Together these leave no plan: two outfits are to be worn; there are to be at"
                    + " least three stops.",
                "There is one with all of this: one outfit; one stop."));
  }

  @Test
  void whatNoRuleCanHelpIsSaid() {
    PlanRequest open =
        new Evening(FOUR, SUNSET, 90)
            .spot(1, "Reed Bank", 235, 0)
            .request(new StopLimits(1, 1, 5), OutfitWish.ONE);

    Refusal refusal = new Conflict(open, request -> false).refusal();

    assertThat(refusal.rule()).isEqualTo(Rule.DRIVE);
    assertThat(refusal.found()).startsWith("Even with more time").endsWith("there is no plan.");
  }
}
