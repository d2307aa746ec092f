package org.lightledger.store;

import org.jspecify.annotations.Nullable;

/**
 * Where a shot can belong: a spot, or a spot that the owner dropped. Exactly one is set.
 *
 * @param spotId the ledger's number of the spot, or null
 * @param droppedId the number that the dropped spot had, or null
 * @param distanceM from the place asked about to the nearest place it is measured from, metres
 */
public record Home(@Nullable Long spotId, @Nullable Long droppedId, double distanceM) {
  /** The same, seen from elsewhere. */
  Home at(double awayM) {
    return new Home(spotId, droppedId, awayM);
  }
}
