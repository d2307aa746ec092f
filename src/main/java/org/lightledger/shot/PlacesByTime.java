package org.lightledger.shot;

import java.time.Instant;

/** Tells where the photographer was. Implementations are safe for use by several threads. */
@FunctionalInterface
public interface PlacesByTime {

  /**
   * Where the photographer was at a moment.
   *
   * @param instant when
   * @return the place, or why it is not known
   */
  Placement at(Instant instant);
}
