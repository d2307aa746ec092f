package org.lightledger.session.drive;

import java.util.Locale;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;

/**
 * Guesses a drive from the distance alone: the geodesic times a circuity factor, at one speed in
 * town and another beyond.
 */
final class Estimate {
  /**
   * How much longer roads are than the straight line between their ends. Country averages lie
   * between about 1.2 and 2.1 (Ballou, Rahardja, Sakai 2002, "Selected country circuity factors for
   * road travel distance estimation", Transportation Research A 36; from memory, not verified at
   * its source). Own choice: 1.4, for short drives are the more winding ones.
   */
  static final double CIRCUITY = 1.4;

  /** On the first part of a drive, km/h. Own choice: streets with lights and parking. */
  static final double TOWN_KMH = 30;

  /** So much of a drive is in town, metres along the road. Own choice. */
  static final double TOWN_M = 5000;

  /** On the rest, km/h. Own choice: country roads. */
  static final double COUNTRY_KMH = 60;

  private static final double KMH_IN_M_PER_MIN = 1000.0 / 60.0;

  private Estimate() {}

  /** A drive; 0 minutes for one and the same place. */
  static Drive between(GeoPoint from, GeoPoint to, String why) {
    double roadM = CIRCUITY * Geodesy.distanceM(from, to);
    double minutes =
        Math.min(roadM, TOWN_M) / (TOWN_KMH * KMH_IN_M_PER_MIN)
            + Math.max(0, roadM - TOWN_M) / (COUNTRY_KMH * KMH_IN_M_PER_MIN);
    return new Drive(
        (int) Math.ceil(minutes),
        DriveSource.ESTIMATED,
        String.format(
            Locale.ROOT,
            "%.1f km, %.1f times the straight line, at %.0f km/h for the first %.0f km and %.0f km/h"
                + " beyond; %s.",
            roadM / 1000,
            CIRCUITY,
            TOWN_KMH,
            TOWN_M / 1000,
            COUNTRY_KMH,
            why));
  }
}
