package org.lightledger.skyline;

import java.util.OptionalDouble;
import org.lightledger.geo.GeoPoint;

/** Knows how high the ground is. Implementations are safe for use by several threads. */
@FunctionalInterface
public interface Ground {

  /**
   * The height of the ground.
   *
   * @param place where
   * @return metres above the elevation model's zero, or nothing where it is not known
   */
  OptionalDouble groundM(GeoPoint place);
}
