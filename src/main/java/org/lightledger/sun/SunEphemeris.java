package org.lightledger.sun;

import java.time.Instant;
import org.lightledger.geo.GeoPoint;

/** Knows where the sun is. Implementations are safe for use by several threads. */
public interface SunEphemeris {

  /**
   * Where the sun stands in the zenith.
   *
   * @param instant when
   * @return the subsolar point
   */
  SubsolarPoint at(Instant instant);

  /**
   * Where the sun stands on the sky of a place.
   *
   * @param instant when
   * @param place where one looks from
   * @return the direction
   */
  default SunDirection direction(Instant instant, GeoPoint place) {
    return at(instant).from(place);
  }
}
