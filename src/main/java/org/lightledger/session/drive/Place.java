package org.lightledger.session.drive;

import org.lightledger.geo.GeoPoint;

/**
 * A spot as a drive sees it.
 *
 * @param spotId the ledger's number of the spot
 * @param point where it is
 */
public record Place(long spotId, GeoPoint point) {}
