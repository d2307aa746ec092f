package org.lightledger.shot.track;

import java.time.Duration;

/**
 * How far a track log is trusted where it has no point.
 *
 * @param longestGap the longest time between two fixes that is bridged
 * @param widestGapM the greatest distance between two fixes that is bridged, metres; may be
 *     infinite
 * @param farthestOutside how long before the first fix, after the last, or from an end of a gap
 *     that is not bridged, the nearest fix still stands for the place
 * @param greatestDisagreementM how far apart several logs may place a shot, metres; may be infinite
 */
public record TrackLimits(
    Duration longestGap,
    double widestGapM,
    Duration farthestOutside,
    double greatestDisagreementM) {

  /**
   * Checks the limits.
   *
   * @throws IllegalArgumentException when one is negative or not a number
   */
  public TrackLimits {
    if (longestGap.isNegative()
        || farthestOutside.isNegative()
        || !(widestGapM >= 0)
        || !(greatestDisagreementM >= 0)) {
      throw new IllegalArgumentException(
          "expected limits of 0 or more, found "
              + longestGap
              + ", "
              + widestGapM
              + " m, "
              + farthestOutside
              + ", "
              + greatestDisagreementM
              + " m");
    }
  }

  /**
   * Own choice.
   *
   * @return gaps of up to five minutes and 500 metres, which is a brisk walk; one minute outside,
   *     in which a walker leaves a spot; logs that agree to 50 metres, the error of two receivers
   *     among houses
   */
  public static TrackLimits standard() {
    return new TrackLimits(Duration.ofMinutes(5), 500, Duration.ofMinutes(1), 50);
  }
}
