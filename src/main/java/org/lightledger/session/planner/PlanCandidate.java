package org.lightledger.session.planner;

import java.util.List;
import org.lightledger.ask.Sky;
import org.lightledger.geo.GeoPoint;

/**
 * A spot that may become a stop.
 *
 * @param spotId the ledger's number of the spot
 * @param name its name
 * @param place where it is
 * @param clear its light under a clear sky, over the whole frame of the session
 * @param overcast its light under an overcast sky
 * @param weights how much each light is worth there
 * @param leastMin one shoots there at least so many minutes, 1 to 600
 * @param wantedMin and at most so many, no fewer
 * @param open when it is open; empty when always
 * @param placeToChange whether clothes can be changed there
 * @param claim what the owner has decided
 * @param warmth how well it fits what the client answered, [0, 1]
 */
public record PlanCandidate(
    long spotId,
    String name,
    GeoPoint place,
    SpotSunlight clear,
    SpotSunlight overcast,
    LightWeights weights,
    int leastMin,
    int wantedMin,
    List<OpenWindow> open,
    boolean placeToChange,
    Claim claim,
    double warmth) {

  /**
   * Checks the numbers and keeps its own copy.
   *
   * @throws IllegalArgumentException naming what was found and what was expected
   */
  public PlanCandidate {
    if (leastMin < 1 || wantedMin < leastMin || wantedMin > 600) {
      throw new IllegalArgumentException(
          "%s: expected a stay of 1 to 600 minutes, the least no longer than the wanted; found %d"
                  .formatted(name, leastMin)
              + " to "
              + wantedMin);
    }
    if (!(warmth >= 0 && warmth <= 1)) {
      throw new IllegalArgumentException(name + ": expected a warmth in [0, 1], found " + warmth);
    }
    open = List.copyOf(open);
  }

  /** The light under a sky. */
  SpotSunlight light(Sky sky) {
    return sky == Sky.OVERCAST ? overcast : clear;
  }

  /** How much each light is worth there under a sky. */
  LightWeights weights(Sky sky) {
    return weights.under(sky);
  }

  /** The same spot under another decision. */
  PlanCandidate with(Claim other) {
    return new PlanCandidate(
        spotId,
        name,
        place,
        clear,
        overcast,
        weights,
        leastMin,
        wantedMin,
        open,
        placeToChange,
        other,
        warmth);
  }

  /** The same spot, always open. */
  PlanCandidate alwaysOpen() {
    return new PlanCandidate(
        spotId,
        name,
        place,
        clear,
        overcast,
        weights,
        leastMin,
        wantedMin,
        List.of(),
        placeToChange,
        claim,
        warmth);
  }
}
