package org.lightledger.scenario.render;

/**
 * How much light falls from sun and sky, by the sun's altitude.
 *
 * <p>The total on level ground under a clear sky is D. R. E. Brown, Natural Illumination Charts (US
 * Navy, 1952), tabulated. Its split into beam and sky, and the overcast sky, follow the daylight
 * availability formulas of Gillette and Treado (1985; IES RP-21): beam 127.5 klx exp(-c m), sky A +
 * B sin^C, scaled together so that their sum is Brown's total. Air mass by Kasten and Young (1989).
 *
 * @param beamLux illuminance on a surface facing the sun, from the sun's disc alone, lux
 * @param skyLux illuminance on level ground from the sky alone, lux
 */
record Daylight(double beamLux, double skyLux) {
  private static final double SOLAR_CONSTANT_LUX = 127_500;

  private static final double[][] BROWN = {
    {-10, 0.0449409}, {-8, 0.356457}, {-6, 3.47205}, {-5, 10.6515}, {-4, 30.7335}, {-3, 81.041},
    {-2, 191.693}, {-1, 403.486}, {0, 756.829}, {1, 1276.21}, {2, 1960.97}, {3, 2789.01},
    {4, 3729.89}, {5, 4757.63}, {6, 5857.05}, {8, 8256.96}, {10, 10932.3}, {12, 13862.9},
    {15, 18611.2}, {20, 27278}, {25, 36871.5}, {30, 46932.8}, {35, 57149}, {40, 66692.9},
    {45, 75808.4}, {50, 85177.1}, {60, 101816}, {70, 112731}, {80, 120197}, {90, 123867}
  };

  /** The clear day at an apparent altitude of the sun, degrees in [-10, 90]. */
  static Daylight clear(double sunAltitudeDeg) {
    return split(sunAltitudeDeg, 0.21, 800 + 15_500 * Math.sqrt(sine(sunAltitudeDeg)));
  }

  /**
   * A day of thin haze, where more of the light comes from the sky (partly cloudy coefficients).
   */
  static Daylight hazy(double sunAltitudeDeg) {
    return split(sunAltitudeDeg, 0.40, 600 + 25_000 * Math.pow(sine(sunAltitudeDeg), 0.75));
  }

  /** The overcast day at an apparent altitude of the sun, degrees in [-10, 90]. */
  static Daylight overcast(double sunAltitudeDeg) {
    return new Daylight(0, 300 + 21_000 * sine(sunAltitudeDeg));
  }

  private static Daylight split(double altitudeDeg, double extinction, double skyLux) {
    double total = totalLux(altitudeDeg);
    if (altitudeDeg <= -0.3) {
      return new Daylight(0, total);
    }
    double beam = SOLAR_CONSTANT_LUX * Math.exp(-extinction * airMass(altitudeDeg));
    double scale = total / (beam * sine(altitudeDeg) + skyLux);
    return new Daylight(beam * scale, skyLux * scale);
  }

  private static double sine(double altitudeDeg) {
    return Math.max(0, Math.sin(Math.toRadians(altitudeDeg)));
  }

  /** Relative optical air mass, 1 at the zenith. */
  static double airMass(double altitudeDeg) {
    double altitude = Math.max(-0.5, altitudeDeg);
    return 1
        / (Math.sin(Math.toRadians(altitude)) + 0.50572 * Math.pow(altitude + 6.07995, -1.6364));
  }

  /** The clear-sky illuminance of level ground, lux, interpolated in its logarithm. */
  static double totalLux(double altitudeDeg) {
    int i = 1;
    while (i < BROWN.length - 1 && BROWN[i][0] < altitudeDeg) {
      i++;
    }
    double share = (altitudeDeg - BROWN[i - 1][0]) / (BROWN[i][0] - BROWN[i - 1][0]);
    double low = Math.log(BROWN[i - 1][1]);
    return Math.exp(low + share * (Math.log(BROWN[i][1]) - low));
  }
}
