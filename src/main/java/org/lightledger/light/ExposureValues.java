package org.lightledger.light;

/** From light to exposure values at ISO 100. */
public final class ExposureValues {
  /**
   * The incident-light calibration constant of ISO 2720 for a flat receptor, lux seconds: 250, the
   * usual choice in the standard's interval of 240 to 400.
   */
  public static final double INCIDENT_CONSTANT = 250.0;

  private ExposureValues() {}

  /**
   * The exposure that an incident meter asks for: N² / t = E S / C (ISO 2720), at S = 100.
   *
   * @param lux illuminance of the subject, more than 0
   * @return EV100
   * @throws IllegalArgumentException when the illuminance is not a positive finite number
   */
  public static double ev100(double lux) {
    if (!(lux > 0.0 && lux < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "expected a positive illuminance in lux, a finite number, found " + lux);
    }
    return log2(lux * 100.0 / INCIDENT_CONSTANT);
  }

  static double log2(double value) {
    return Math.log(value) / Math.log(2.0);
  }
}
