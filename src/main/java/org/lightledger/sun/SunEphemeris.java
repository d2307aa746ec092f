package org.lightledger.sun;

import java.time.Instant;
import org.lightledger.geo.GeoPoint;

/**
 * Knows where the sun is. {@link SpaEphemeris} is the exact one; {@link SunCurve} makes any of them
 * fast over a stretch of time. Implementations are safe for use by several threads.
 */
public interface SunEphemeris {

  /**
   * Where the sun stands in the zenith.
   *
   * @param instant when, UTC
   * @return the subsolar point
   * @throws IllegalArgumentException when the instant lies outside the stretch that is served
   */
  SubsolarPoint at(Instant instant);

  /**
   * Where the sun stands on the sky of a place.
   *
   * @param instant when, UTC
   * @param place where one looks from
   * @return the direction
   * @throws IllegalArgumentException when the instant lies outside the stretch that is served
   */
  default SunDirection direction(Instant instant, GeoPoint place) {
    return at(instant).from(place);
  }
}
