package org.lightledger.shot;

import org.jspecify.annotations.Nullable;

/**
 * Exposure settings.
 *
 * @param exposureTimeS exposure time, seconds, greater than 0, or null when not known
 * @param fNumber focal ratio, greater than 0, or null when not known
 * @param isoSpeed ISO sensitivity, greater than 0, or null when not known
 */
public record Exposure(
    @Nullable Double exposureTimeS, @Nullable Double fNumber, @Nullable Double isoSpeed) {

  /** Nothing known. */
  public static final Exposure UNKNOWN = new Exposure(null, null, null);

  /**
   * Checks the settings.
   *
   * @throws IllegalArgumentException when a setting is not a positive finite number
   */
  public Exposure {
    requirePositive("exposure time in seconds", exposureTimeS);
    requirePositive("f-number", fNumber);
    requirePositive("ISO speed", isoSpeed);
  }

  /**
   * Exposure value at ISO 100: log2(N²/t) - log2(S/100) (APEX, Exif 2.32 annex C; ISO 2720).
   *
   * @return EV100, or null when a setting is missing
   */
  public @Nullable Double ev100() {
    if (exposureTimeS == null || fNumber == null || isoSpeed == null) {
      return null;
    }
    return Math.log(fNumber * fNumber / exposureTimeS * 100.0 / isoSpeed) / Math.log(2);
  }

  private static void requirePositive(String what, @Nullable Double value) {
    if (value != null && !(value > 0 && value < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("expected a positive " + what + ", found " + value);
    }
  }
}
