package org.lightledger.scenario;

import org.lightledger.scenario.render.Noise;

/**
 * The ground of the scenario, as far as one can see: a flat valley along the river, a hill in the
 * north-west, a ridge in the east, low country in the west and mountains far off.
 */
public final class Terrain {
  /** Height of the river's water above sea level, metres. */
  public static final double WATER_ELEVATION_M = 824;

  /** The hill's top. */
  public static final Point HILL = new Point(-620, 560);

  private static final double HILL_HEIGHT_M = 66;
  private static final double HILL_RADIUS_M = 250;

  private final River river;

  public Terrain(River river) {
    this.river = river;
  }

  /** Height of the ground above the river's water, metres; negative in the river's bed. */
  public double up(Point place) {
    double e = place.east();
    double n = place.north();
    double d = river.distance(place);
    double half = river.widthM() / 2;
    double bank = smoothstep(half - 3.0, half + 3.5, d);
    double valley = -1.8 + 2.3 * bank + 5.5 * (1 - Math.exp(-Math.max(0, d - half - 3) / 320));
    double swell = 2.4 * (Noise.layers(e / 170 + 40, n / 170 + 40, 2) - 0.5);
    double up = valley + swell * smoothstep(25, 160, d);
    double fromHill = place.to(HILL) / HILL_RADIUS_M;
    up += HILL_HEIGHT_M * Math.exp(-fromHill * fromHill);
    double ridge = (e - 1750 + 0.35 * n) / 620;
    double range =
        250 * Math.exp(-ridge * ridge) * (0.55 + 0.8 * Noise.layers(e / 900, n / 900, 4));
    double away = Math.hypot(e, n);
    double hills =
        210 * smoothstep(1300, 5200, away) * Noise.layers(e / 1500 + 9, n / 1500 + 3, 5) * 0.75;
    double crest = 1 - Math.abs(2 * Noise.layers(e / 3600 + 5, n / 3600 + 8, 5) - 1);
    hills += 420 * smoothstep(5200, 11_500, away) * crest;
    return up + (range + hills) * smoothstep(10, 600, d);
  }

  /** Height of the ground above sea level, metres. */
  public double elevationM(Point place) {
    return WATER_ELEVATION_M + up(place);
  }

  private static double smoothstep(double low, double high, double value) {
    double t = Math.max(0, Math.min(1, (value - low) / (high - low)));
    return t * t * (3 - 2 * t);
  }
}
