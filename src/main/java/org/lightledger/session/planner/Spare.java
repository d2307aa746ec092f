package org.lightledger.session.planner;

import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;

/**
 * A spot of the stock that is no candidate but can stand in for a stop when something goes wrong.
 *
 * @param spotId the ledger's number of the spot
 * @param name its name
 * @param place where it is
 * @param underCover whether it keeps the rain off
 * @param clear its light under a clear sky; null when it was not looked at
 */
public record Spare(
    long spotId, String name, GeoPoint place, boolean underCover, @Nullable SpotSunlight clear) {}
