package org.lightledger.session.planner;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Answer;
import org.lightledger.geo.Bearing;
import org.lightledger.session.drive.Drive;

/**
 * A stop of a plan.
 *
 * @param spotId the ledger's number of the spot
 * @param name its name
 * @param drive the drive there; null where the session meets
 * @param arrive when one arrives: the call time where the session meets
 * @param changeBefore the change of outfit on the way there, at the stop before or here; or null
 * @param shootFrom when shooting begins
 * @param changeWithin the change of outfit during the stay, or null
 * @param shootUntil when shooting ends
 * @param leave when one leaves: after shooting, or after a change there
 * @param outfit the number of the outfit with which shooting begins, 1 or more
 * @param facing where the camera looks
 * @param basis why it looks there
 * @param lights the light from beginning to end
 * @param directEnds when direct sun ends there during the stay; null when it does not, or that is
 *     not known
 * @param tier the weakest evidence among the minutes of the stay
 * @param wantedMin minutes of shooting in wanted light
 * @param worthLightMin what it adds to the worth of the plan, light minutes: its light and warmth
 *     less the drive there, and the finish if it is the last
 * @param why one sentence that says why it is a stop
 * @param fallback the nearest spot that can stand in for it, or null
 */
public record PlannedStop(
    long spotId,
    String name,
    @Nullable Drive drive,
    Instant arrive,
    @Nullable OutfitChange changeBefore,
    Instant shootFrom,
    @Nullable OutfitChange changeWithin,
    Instant shootUntil,
    Instant leave,
    int outfit,
    Bearing facing,
    Answer.FacingBasis basis,
    List<LightStretch> lights,
    @Nullable Instant directEnds,
    Answer.Tier tier,
    int wantedMin,
    double worthLightMin,
    String why,
    @Nullable Fallback fallback) {

  /** Keeps its own copy. */
  public PlannedStop {
    lights = List.copyOf(lights);
  }

  /**
   * How long one shoots there.
   *
   * @return minutes without the change of outfit
   */
  public int shootingMin() {
    Duration all = Duration.between(shootFrom, shootUntil);
    Duration change =
        changeWithin == null
            ? Duration.ZERO
            : Duration.between(changeWithin.from(), changeWithin.until());
    return Math.toIntExact(all.minus(change).toMinutes());
  }
}
