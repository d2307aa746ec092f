package org.lightledger.scenario.render;

/**
 * Chooses an exposure as a portrait photographer does: mostly for the person, partly for the
 * picture, and never so that the greater part of the picture burns out.
 */
final class Meter {
  private static final double FOR_THE_PERSON = 0.6;

  /** A person is metered as an incident meter does: as if dressed in this grey. */
  private static final double MIDDLE_GREY = 0.12;

  private Meter() {}

  /**
   * The exposure value at ISO 100 for a small trial picture.
   *
   * @param film the trial
   * @param radiance the trial's radiance, three numbers per pixel
   * @param bias compensation in stops, positive is brighter
   */
  static double ev100(Film film, float[] radiance, double bias) {
    double person = 0;
    double personWeight = 0;
    double picture = 0;
    double[] values = new double[film.depth.length];
    for (int i = 0; i < values.length; i++) {
      double luminance =
          new Vec3(radiance[3 * i], radiance[3 * i + 1], radiance[3 * i + 2]).luminance();
      values[i] = Math.max(1e-3, luminance);
      picture += Math.log(values[i]);
      double albedo =
          new Vec3(film.colour[3 * i], film.colour[3 * i + 1], film.colour[3 * i + 2]).luminance();
      if (film.figure[i] > 0.9 && albedo > 0.01) {
        person += Math.log(values[i] / albedo * MIDDLE_GREY);
        personWeight++;
      }
    }
    picture /= values.length;
    double mean =
        personWeight < 2
            ? picture
            : FOR_THE_PERSON * person / personWeight + (1 - FOR_THE_PERSON) * picture;
    java.util.Arrays.sort(values);
    double bright = values[(int) (values.length * 0.80)];
    double wanted = (mean + Math.log(8)) / Math.log(2) - bias;
    double least = Math.log(bright * 8 / Math.pow(2, 3.85)) / Math.log(2);
    return Math.max(wanted, least);
  }
}
