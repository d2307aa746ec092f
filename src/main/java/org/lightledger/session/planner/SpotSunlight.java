package org.lightledger.session.planner;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Answer;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;

/**
 * The light at a spot over a stretch of time, minute by minute, each minute told by its middle.
 *
 * @param from the start of minute 0
 * @param alongFacings the light along each facing that may be used, at least one, all equally long
 * @param direct for each minute whether the sun reaches the spot; null where that is not known
 */
public record SpotSunlight(
    Instant from, List<AlongFacing> alongFacings, List<@Nullable Boolean> direct) {

  /**
   * The light along one facing.
   *
   * @param facing where the camera looks
   * @param basis why it may look there
   * @param minutes the light of each minute
   */
  public record AlongFacing(Bearing facing, Answer.FacingBasis basis, List<Minute> minutes) {
    /** Keeps its own copy. */
    public AlongFacing {
      minutes = List.copyOf(minutes);
    }
  }

  /**
   * The light of a minute.
   *
   * @param light its class
   * @param tier what that rests on
   * @param marginDeg how far the sun or the skyline may move before the class changes, degrees
   */
  public record Minute(LightClass light, Answer.Tier tier, double marginDeg) {}

  /**
   * Checks the lengths.
   *
   * @throws IllegalArgumentException when there is no facing, or the lengths differ
   */
  public SpotSunlight {
    alongFacings = List.copyOf(alongFacings);
    direct = java.util.Collections.unmodifiableList(new java.util.ArrayList<>(direct));
    if (alongFacings.isEmpty()) {
      throw new IllegalArgumentException(
          "expected the light along at least one facing, found none");
    }
    for (AlongFacing along : alongFacings) {
      if (along.minutes().size() != direct.size()) {
        throw new IllegalArgumentException(
            "expected the light of %d minutes, found that of %d"
                .formatted(direct.size(), along.minutes().size()));
      }
    }
  }

  /**
   * How many minutes are told.
   *
   * @return 0 or more
   */
  public int minutes() {
    return direct.size();
  }

  /**
   * The number of the minute that begins at an instant.
   *
   * @param instant when
   * @return minutes since the start; negative or {@link #minutes()} and more where none is told
   */
  public int minuteOf(Instant instant) {
    return Math.toIntExact(
        Math.floorDiv(java.time.Duration.between(from, instant).toMillis(), 60_000L));
  }
}
