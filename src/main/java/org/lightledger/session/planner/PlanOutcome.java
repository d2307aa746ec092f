package org.lightledger.session.planner;

import java.util.List;

/** What came of planning. */
public sealed interface PlanOutcome {

  /**
   * There is a plan.
   *
   * @param plan the best one
   */
  record Planned(SessionPlan plan) implements PlanOutcome {}

  /**
   * Nothing fits.
   *
   * @param refusals the rules that stand in the way, at least one, each with what would help
   */
  record Refused(List<Refusal> refusals) implements PlanOutcome {
    /** Keeps its own copy. */
    public Refused {
      refusals = List.copyOf(refusals);
    }
  }
}
