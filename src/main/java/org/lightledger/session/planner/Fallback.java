package org.lightledger.session.planner;

import org.jspecify.annotations.Nullable;
import org.lightledger.session.drive.Drive;

/**
 * A spot that can stand in for a stop.
 *
 * @param spotId the ledger's number of the spot
 * @param name its name
 * @param distanceM from the stop along a straight line, metres
 * @param drive the drive from the stop; null when none is known
 * @param underCover whether it is named because it keeps the rain off; else for its like light
 */
public record Fallback(
    long spotId, String name, double distanceM, @Nullable Drive drive, boolean underCover) {}
