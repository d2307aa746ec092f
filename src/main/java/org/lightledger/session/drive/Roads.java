package org.lightledger.session.drive;

import org.lightledger.geo.GeoPoint;

/** Knows the roads of a region. Implementations are safe for use by several threads. */
public interface Roads {

  /**
   * The fastest way by car, without traffic.
   *
   * @param from where it starts
   * @param to where it ends
   * @return the route, or why there is none
   */
  Route between(GeoPoint from, GeoPoint to);

  /** What came of looking for a route. */
  sealed interface Route {

    /**
     * There is one.
     *
     * @param durationS how long it takes, seconds, 0 or more
     * @param distanceM how long it is along the roads, metres, 0 or more
     * @param fromRoadM from the start to the nearest road for cars, metres
     * @param toRoadM from the nearest road for cars to the end, metres
     */
    record Found(double durationS, double distanceM, double fromRoadM, double toRoadM)
        implements Route {}

    /**
     * There is none.
     *
     * @param why for example "the start lies 430 m from any road for cars"
     */
    record None(String why) implements Route {}
  }
}
