package org.lightledger.session.planner;

import java.time.Instant;

/**
 * A change of outfit.
 *
 * @param from its start
 * @param until its end
 * @param spotId the stop at which it is made
 * @param toOutfit the number of the outfit worn afterwards, 2 or more
 */
public record OutfitChange(Instant from, Instant until, long spotId, int toOutfit) {}
