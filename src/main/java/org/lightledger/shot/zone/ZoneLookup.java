package org.lightledger.shot.zone;

import org.lightledger.geo.GeoPoint;

/** Tells the time zones of a place. */
@FunctionalInterface
public interface ZoneLookup {
  /**
   * The zones at a place.
   *
   * @param place where
   * @param withinM how far the true place can lie from it, metres, 0 or more
   * @return every zone that can hold, possibly none
   */
  ZonesAtPlace zonesAt(GeoPoint place, double withinM);
}
