package org.lightledger.field;

import java.util.List;
import org.lightledger.geo.Bearing;

/**
 * The light of a day along one facing.
 *
 * @param facing where the camera looks
 * @param planned whether the plan looks this way
 * @param lights codes of light classes from the first minute on; under a clear sky
 */
public record FacingLight(Bearing facing, boolean planned, List<DayRun> lights) {
  /** Keeps an own copy of the runs. */
  public FacingLight {
    lights = List.copyOf(lights);
  }
}
