package org.lightledger.session.planner;

import org.lightledger.ask.Answer;

/**
 * What a plan is worth, in thousandths of a light minute: a light minute is one minute of the best
 * light that was seen there before.
 *
 * <pre>
 * worth = sum over stops ( sum over minutes of shooting ( weight(light) x trust(tier) )
 *                          + 10 x warmth )
 *         - 0.1 x minutes of driving
 *         + 10 x weight x trust in the last minute of shooting
 *              x max(0, 1 - minutes from the session's end to the last good light / 60)
 * </pre>
 *
 * <p>The light is that along the one facing used at the stop. The last good light is the latest
 * moment within the frame up to which any candidate, excluded or not, has a wanted light ({@link
 * LightWeights#wants}) along any of its facings. Each term is rounded to a thousandth, so sums are
 * exact and do not depend on their order.
 *
 * <p>The factors are own choices: light decides; a drive costs a tenth of the light of its minutes
 * besides the time that it takes; a stop that fits all the client's answers is worth ten minutes of
 * light more than one that fits none; and so is ending with the last good light.
 */
final class Worth {
  /** Thousandths of a light minute in one. */
  static final long MILLI = 1000;

  /** What a minute of driving costs, thousandths of a light minute. Own choice. */
  static final long DRIVE_MINUTE = 100;

  /** What full warmth is worth, light minutes. Own choice. */
  static final double WARMTH = 10;

  /** What ending in the best light at its last moment is worth, light minutes. Own choice. */
  static final double FINISH = 10;

  /** So many minutes off the last good light the finish is worth nothing more. Own choice. */
  static final double FINISH_WITHIN_MIN = 60;

  private Worth() {}

  /** How far evidence is trusted: light that was seen, light under a known skyline, sun alone. */
  static double trust(Answer.Tier tier) {
    return switch (tier) {
      case SCOUTED -> 1.0;
      case MODELLED -> 0.95;
      case GEOMETRY -> 0.85;
    };
  }

  /** A minute of light. */
  static long minute(SpotSunlight.Minute minute, LightWeights weights) {
    return Math.round(MILLI * weights.of(minute.light()) * trust(minute.tier()));
  }

  /** How well a stop fits the client's answers. */
  static long warmth(double warmth) {
    return Math.round(MILLI * WARMTH * warmth);
  }

  /** The drive. */
  static long drive(int minutes) {
    return DRIVE_MINUTE * minutes;
  }

  /** The end of the session, so many minutes off the last good light. */
  static long finish(long lastMinute, int offMin) {
    return Math.round(lastMinute * FINISH * Math.max(0, 1 - Math.abs(offMin) / FINISH_WITHIN_MIN));
  }
}
