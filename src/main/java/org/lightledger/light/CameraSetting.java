package org.lightledger.light;

import java.util.List;

/**
 * A camera setting to begin with.
 *
 * @param isoSpeed 100, 200, 400 and so on to 6400
 * @param fNumber focal ratio
 * @param shutter as cameras write it, for example "1/500" or "0.5", seconds
 * @param exposureTimeS the time that is meant, seconds: a whole number of third stops from a second
 * @param overStops by how much more light than wanted this lets in, stops; negative for less
 */
public record CameraSetting(
    int isoSpeed, double fNumber, String shutter, double exposureTimeS, double overStops) {
  /**
   * No longer than this without need, seconds: own choice, a subject that moves a little, held by
   * hand.
   */
  public static final double LONGEST_S = 1.0 / 200.0;

  /** Sensitivities, lowest first: own choice, what nearly every camera has. */
  private static final int[] ISO_SPEEDS = {100, 200, 400, 800, 1600, 3200, 6400};

  /** Standard third stops from 1/8000 to 30 seconds, as cameras write them. */
  private static final List<String> SHUTTERS =
      List.of(
          ("1/8000 1/6400 1/5000 1/4000 1/3200 1/2500 1/2000 1/1600 1/1250 1/1000 1/800 1/640"
                  + " 1/500 1/400 1/320 1/250 1/200 1/160 1/125 1/100 1/80 1/60 1/50 1/40 1/30"
                  + " 1/25 1/20 1/15 1/13 1/10 1/8 1/6 1/5 1/4 0.3 0.4 0.5 0.6 0.8 1 1.3 1.6 2 2.5"
                  + " 3.2 4 5 6 8 10 13 15 20 25 30")
              .split(" "));

  /** 1/8000 stands for two to the power of -13: so many thirds below a second. */
  private static final int FASTEST_THIRDS = -39;

  /**
   * The lowest sensitivity that allows {@link #LONGEST_S}, and the nearest third stop of time.
   *
   * @param ev100 the exposure wanted
   * @param fNumber the focal ratio to keep, for example 2 or 2.8
   * @return the setting; its overStops tell when no camera can do it
   * @throws IllegalArgumentException when a number is not finite, or the ratio is not positive
   */
  public static CameraSetting near(double ev100, double fNumber) {
    if (!Double.isFinite(ev100)) {
      throw new IllegalArgumentException("expected a finite EV100, found " + ev100);
    }
    if (!(fNumber > 0.0 && fNumber < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("expected a positive f-number, found " + fNumber);
    }
    double thirdsAt100 = 3.0 * (2.0 * ExposureValues.log2(fNumber) - ev100);
    int doublings = 0;
    int thirds = (int) Math.rint(thirdsAt100);
    while (timeS(thirds) > LONGEST_S && doublings < ISO_SPEEDS.length - 1) {
      doublings++;
      thirds -= 3;
    }
    int slot = Math.max(0, Math.min(SHUTTERS.size() - 1, thirds - FASTEST_THIRDS));
    double over = (slot + FASTEST_THIRDS - (thirdsAt100 - 3.0 * doublings)) / 3.0;
    return new CameraSetting(
        ISO_SPEEDS[doublings], fNumber, SHUTTERS.get(slot), timeS(slot + FASTEST_THIRDS), over);
  }

  private static double timeS(int thirds) {
    return Math.pow(2.0, thirds / 3.0);
  }
}
