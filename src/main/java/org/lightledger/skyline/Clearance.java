package org.lightledger.skyline;

import java.util.Locale;

/**
 * How far the centre of the sun's disc stands from the skyline.
 *
 * @param marginDeg apparent altitude of the sun less the skyline's, degrees; positive when clear
 * @param uncertaintyDeg one standard deviation of the skyline there, degrees, 0 or more
 * @param source where the skyline's value comes from
 * @param lowerBoundOnly true when the skyline may be higher than the value says
 */
public record Clearance(
    double marginDeg, double uncertaintyDeg, SkylineSource source, boolean lowerBoundOnly) {

  /** What rounds to nothing with one decimal, degrees. */
  private static final double SMALLEST_TOLD_DEG = 0.05;

  /**
   * Checks the numbers.
   *
   * @throws IllegalArgumentException when one is not finite or the uncertainty is negative
   */
  public Clearance {
    if (!Double.isFinite(marginDeg)) {
      throw new IllegalArgumentException("expected a finite margin, found " + marginDeg);
    }
    if (!(uncertaintyDeg >= 0.0 && uncertaintyDeg <= 180.0)) {
      throw new IllegalArgumentException(
          "expected an uncertainty in [0, 180] degrees, found " + uncertaintyDeg);
    }
  }

  /**
   * Tells whether the centre of the disc stands above the skyline.
   *
   * @return true for direct sun, false for open shade
   */
  public boolean direct() {
    return marginDeg > 0.0;
  }

  /**
   * Tells whether the verdict holds however the uncertainty falls.
   *
   * @return true when the margin exceeds the uncertainty, and a clear sun does not rest on a lower
   *     bound
   */
  public boolean certain() {
    return Math.abs(marginDeg) > uncertaintyDeg && !(direct() && lowerBoundOnly);
  }

  /**
   * The clearance in words.
   *
   * @return for example "clears the terrain by 3.1 degrees, plus or minus 0.4"
   */
  public String toText() {
    if (source == SkylineSource.NOT_KNOWN) {
      return String.format(
          Locale.ROOT,
          "%s a level horizon by %.1f degrees; what stands there is not known",
          direct() ? "clears" : "is behind",
          Math.abs(marginDeg));
    }
    return String.format(
        Locale.ROOT,
        "%s %s by %.1f degrees, plus or minus %s%s",
        direct() ? "clears" : "is behind",
        label(),
        Math.abs(marginDeg),
        uncertaintyDeg < SMALLEST_TOLD_DEG
            ? "less than 0.1"
            : String.format(Locale.ROOT, "%.1f", uncertaintyDeg),
        direct() && lowerBoundOnly ? ", as far as is known" : "");
  }

  private String label() {
    return switch (source) {
      case NOT_KNOWN -> "what is not known";
      case TERRAIN -> "the terrain";
      case BUILDING -> "a building";
      case TREES -> "trees";
      case MEASURED -> "the measured skyline";
      case SHOT -> "the skyline proven by a shot";
    };
  }
}
