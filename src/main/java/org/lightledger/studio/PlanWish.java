package org.lightledger.studio;

import java.util.List;
import org.lightledger.ask.Sky;
import org.lightledger.session.Candidate;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.session.planner.OutfitWish;

/**
 * What the owner wishes of a plan, beyond what the session and its candidates say.
 *
 * @param sky the sky to plan for
 * @param outfits how many outfits are worn
 * @param changeMinutes how long a change of outfit takes, minutes
 * @param tent whether a changing tent comes along
 * @param meeting where all meet
 */
public record PlanWish(
    Sky sky, int outfits, int changeMinutes, boolean tent, KeptPlan.Meeting meeting) {

  /**
   * How many outfits can be worn at most: what was booked, and what the planner can do.
   *
   * @param booked the session
   * @return 1 or more
   */
  public static int mostOutfits(Session booked) {
    return Math.min(OutfitWish.MOST_OUTFITS, booked.terms().outfitLimit());
  }

  /**
   * The usual wish: a clear sky, an outfit for each stop that there is at least, a tent, and the
   * first stop as the meeting spot. Own choice.
   *
   * @param booked the session
   * @param candidates the spots it may stop at
   * @return the wish
   */
  public static PlanWish usual(Session booked, List<Candidate> candidates) {
    long possible =
        candidates.stream().filter(one -> one.choice() != Candidate.Choice.EXCLUDED).count();
    int stops = (int) Math.min(possible, booked.terms().leastStops());
    return new PlanWish(
        Sky.CLEAR,
        Math.max(1, Math.min(mostOutfits(booked), stops)),
        OutfitWish.USUAL_CHANGE_MIN,
        true,
        new KeptPlan.Meeting("", null));
  }
}
