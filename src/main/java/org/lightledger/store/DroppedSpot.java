package org.lightledger.store;

import org.lightledger.spot.Spot;

/**
 * A spot that the owner deleted, as it was.
 *
 * @param spot the spot with the number it had, and the owner's own facings
 * @param byOwner whether the owner had set its position
 * @param shots how many shots belong to it
 */
public record DroppedSpot(Spot spot, boolean byOwner, long shots) {}
