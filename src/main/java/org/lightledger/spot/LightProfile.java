package org.lightledger.spot;

import java.util.List;

/**
 * Everything the ledger knows of the light at one spot.
 *
 * @param spot the spot with its facings
 * @param observations what its shots tell, earliest first
 */
public record LightProfile(Spot spot, List<Observation> observations) {

  /** Keeps an own copy of the observations. */
  public LightProfile {
    observations = List.copyOf(observations);
  }
}
