package org.lightledger.store;

import org.lightledger.spot.Spot;

/**
 * A spot and how far away it is.
 *
 * @param spot the spot
 * @param distanceM length of the geodesic from the place asked about, metres, 0 or more
 */
public record NearSpot(Spot spot, double distanceM) {}
