package org.lightledger.studio;

import org.lightledger.ask.Sky;
import org.lightledger.session.KeptPlan;

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
    Sky sky, int outfits, int changeMinutes, boolean tent, KeptPlan.Meeting meeting) {}
