package org.lightledger.scenario.render;

/**
 * What a camera is set to.
 *
 * @param shutterUnder exposure time, one over this many seconds
 * @param fNumber relative aperture
 * @param iso photographic sensitivity
 */
public record Exposure(int shutterUnder, double fNumber, int iso) {
  private static final int[] SHUTTERS = {
    30, 40, 50, 60, 80, 100, 125, 160, 200, 250, 320, 400, 500, 640, 800, 1000, 1250, 1600, 2000,
    2500, 3200, 4000, 5000, 6400, 8000
  };
  private static final int[] ISOS = {100, 200, 400, 800, 1600, 3200};

  /** EV100 = log2(N^2 / t) - log2(S / 100) (Exif 2.32 APEX, ISO 2720). */
  public double ev100() {
    return log2(fNumber * fNumber * shutterUnder) - log2(iso / 100.0);
  }

  /**
   * The settings of a camera that keeps the aperture and comes nearest to a wanted exposure at the
   * lowest sensitivity that still allows 1/125 s.
   *
   * @param ev100 wanted exposure value at ISO 100
   * @param fNumber the aperture to keep
   */
  static Exposure near(double ev100, double fNumber) {
    for (int iso : ISOS) {
      double seconds = fNumber * fNumber / Math.pow(2, ev100) * 100.0 / iso;
      if (1 / seconds >= 125 || iso == ISOS[ISOS.length - 1]) {
        int best = SHUTTERS[0];
        for (int shutter : SHUTTERS) {
          if (Math.abs(log2(shutter * seconds)) < Math.abs(log2(best * seconds))) {
            best = shutter;
          }
        }
        return new Exposure(best, fNumber, iso);
      }
    }
    throw new IllegalStateException("no sensitivity fits EV100 " + ev100);
  }

  private static double log2(double x) {
    return Math.log(x) / Math.log(2);
  }
}
