package org.lightledger.session;

import java.time.LocalTime;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.light.LightClass;

/**
 * A spot that a session may stop at.
 *
 * @param spotId the spot
 * @param choice whether the planner may take it, must, or must not
 * @param wanted the light it should have; empty for the usual preference
 * @param stayMinutes how long to stay, minutes, [5, 480], or null for an equal share
 * @param arrival when to arrive, on the place's clock, for a locked stop; null for any time
 */
public record Candidate(
    long spotId,
    Choice choice,
    Set<LightClass> wanted,
    @Nullable Integer stayMinutes,
    @Nullable LocalTime arrival) {
  private static final int SHORTEST_STAY = 5;
  private static final int LONGEST_STAY = 480;

  /** Checks the stay and keeps an own copy of the light. */
  public Candidate {
    wanted = Set.copyOf(wanted);
    if (stayMinutes != null) {
      Texts.within("minutes at a stop", stayMinutes, SHORTEST_STAY, LONGEST_STAY);
    }
    if (arrival != null && choice != Choice.LOCKED) {
      throw new IllegalArgumentException(
          "expected an arrival time for a locked stop alone, found one for a stop that is "
              + choice.label());
    }
  }

  /** What the owner says of a spot for one session. */
  public enum Choice {
    /** The planner may take it. */
    FREE("free"),
    /** The planner must take it. */
    LOCKED("locked"),
    /** The planner must leave it. */
    EXCLUDED("left out");

    private final String label;

    Choice(String label) {
      this.label = label;
    }

    /**
     * The word on screens.
     *
     * @return for example "left out"
     */
    public String label() {
      return label;
    }
  }
}
