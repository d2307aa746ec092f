package org.lightledger.scenario.render;

/**
 * From radiance to pixel through one exposure.
 *
 * <p>A meter with K = 12.5 (ISO 2720) sets EV100 so that the scene's mean luminance is 2^EV100 / 8
 * cd/m2. The filmic curve (K. Narkowicz, "ACES filmic tone mapping curve", 2015) takes luminance
 * over 2^EV100, so that this mean (0.125) becomes 0.17, a middle grey, and rolls off above.
 */
final class ToneCurve {
  private final double gainRed;
  private final double gainGreen;
  private final double gainBlue;

  /**
   * A curve.
   *
   * @param ev100 the exposure
   * @param white the light to lean towards white, luminance 1
   * @param adaptation how far to lean, in [0, 1]
   */
  ToneCurve(double ev100, Vec3 white, double adaptation) {
    double scale = 1 / Math.pow(2, ev100);
    Vec3 lean =
        new Vec3(
            Math.pow(white.x(), -adaptation),
            Math.pow(white.y(), -adaptation),
            Math.pow(white.z(), -adaptation));
    double keep = scale / lean.times(white).luminance();
    gainRed = lean.x() * keep;
    gainGreen = lean.y() * keep;
    gainBlue = lean.z() * keep;
  }

  /** The pixel of a radiance, as 0xRRGGBB. */
  int pixel(double red, double green, double blue) {
    double r = red * gainRed;
    double g = green * gainGreen;
    double b = blue * gainBlue;
    double mean = 0.2126 * r + 0.7152 * g + 0.0722 * b;
    double wash = 0.08 + 0.16 * mean / (mean + 2.0);
    return code(r + (mean - r) * wash) << 16
        | code(g + (mean - g) * wash) << 8
        | code(b + (mean - b) * wash);
  }

  private static int code(double value) {
    double v = Math.max(0, value);
    double film = v * (2.51 * v + 0.03) / (v * (2.43 * v + 0.59) + 0.14);
    double shown = Math.min(1, film);
    double srgb = shown <= 0.0031308 ? 12.92 * shown : 1.055 * Math.pow(shown, 1 / 2.4) - 0.055;
    return (int) Math.round(255 * srgb);
  }
}
