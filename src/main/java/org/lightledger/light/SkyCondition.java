package org.lightledger.light;

import java.util.Locale;

/**
 * How much of the sky is covered, as the daylight availability formulas tell it: extinction of the
 * sun's light and illuminance of level ground from the sky (Gillette and Treado 1985; IES RP-21,
 * Recommended Practice for the Calculation of Daylight Availability, 1984). The extinctions were
 * checked against a quotation of the IESNA Lighting Handbook; the coefficients of the sky are from
 * memory, and held against independent totals by a test.
 */
public enum SkyCondition {
  /** Less than a third covered. */
  CLEAR(0.21, 800, 15_500, 0.5),
  /** A mean of sun and clouds: each moment is brighter or darker. */
  PARTLY_CLOUDY(0.80, 300, 45_000, 1.0),
  /** No sun. */
  OVERCAST(Double.POSITIVE_INFINITY, 300, 21_000, 1.0);

  /**
   * The sun's illuminance above the air at its mean distance, lux (IES RP-21). Through the year it
   * changes by 3.4 percent, a twentieth of a stop, which is left out.
   */
  private static final double SOLAR_CONSTANT_LUX = 127_500;

  private final double extinction;
  private final double skyAtHorizonLux;
  private final double skyGrowthLux;
  private final double skyExponent;

  SkyCondition(double extinction, double skyAtHorizonLux, double skyGrowthLux, double skyExponent) {
    this.extinction = extinction;
    this.skyAtHorizonLux = skyAtHorizonLux;
    this.skyGrowthLux = skyGrowthLux;
    this.skyExponent = skyExponent;
  }

  /**
   * The word on screens.
   *
   * @return for example "partly cloudy"
   */
  public String label() {
    return name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  /** The sun on a surface that faces it, lux; the air mass is 1 / sin, as the practice has it. */
  double directNormalLux(double apparentAltitudeDeg) {
    double sine = Math.sin(Math.toRadians(apparentAltitudeDeg));
    return sine > 0.0 ? SOLAR_CONSTANT_LUX * Math.exp(-extinction / sine) : 0.0;
  }

  /** The sky on level ground by day, lux. */
  double skyHorizontalLux(double apparentAltitudeDeg) {
    double sine = Math.max(0.0, Math.sin(Math.toRadians(apparentAltitudeDeg)));
    return skyAtHorizonLux + skyGrowthLux * Math.pow(sine, skyExponent);
  }
}
