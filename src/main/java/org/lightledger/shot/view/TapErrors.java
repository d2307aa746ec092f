package org.lightledger.shot.view;

/**
 * How wrong the things can be that a facing is told from, each either way.
 *
 * @param tapPx how far a tap lies beside what it means, in pixels of the picture, 0 or more
 * @param rollDeg how far the camera was from level, from left to right, degrees, 0 or more
 * @param pitchDeg how far a pitch that is only assumed can be off, degrees, 0 or more
 */
public record TapErrors(double tapPx, double rollDeg, double pitchDeg) {
  /**
   * Hand-held cameras: two degrees from level, five degrees of pitch where nobody cared for the
   * horizon; own choice.
   */
  private static final double USUAL_ROLL_DEG = 2;

  private static final double USUAL_PITCH_DEG = 5;

  /**
   * Checks the errors.
   *
   * @throws IllegalArgumentException when one is negative or not finite
   */
  public TapErrors {
    if (!(tapPx >= 0 && rollDeg >= 0 && pitchDeg >= 0 && tapPx + rollDeg + pitchDeg < 1e9)) {
      throw new IllegalArgumentException(
          "expected errors of 0 or more, found "
              + tapPx
              + " px, "
              + rollDeg
              + " and "
              + pitchDeg
              + " degrees");
    }
  }

  /**
   * A camera held by hand.
   *
   * @param tapPx how far a tap lies beside what it means, in pixels of the picture: a finger is off
   *     by a few pixels of the screen, each of which is several of the picture's
   * @return usual errors
   */
  public static TapErrors handHeld(double tapPx) {
    return new TapErrors(tapPx, USUAL_ROLL_DEG, USUAL_PITCH_DEG);
  }
}
