package org.lightledger.session.planner;

import org.jspecify.annotations.Nullable;

/**
 * A candidate that is no stop of the plan.
 *
 * @param spotId the ledger's number of the spot
 * @param name its name
 * @param rule the rule that keeps it out; null when it only costs worth
 * @param lostLightMin how much less the best plan with it is worth, light minutes; null when there
 *     is no such plan
 * @param lacked what it lacked, in words
 */
public record Rejected(
    long spotId, String name, @Nullable Rule rule, @Nullable Double lostLightMin, String lacked) {}
