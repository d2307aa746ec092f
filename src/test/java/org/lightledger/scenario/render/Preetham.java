package org.lightledger.scenario.render;

/**
 * The clear sky's relative brightness and colour: A. J. Preetham, P. Shirley and B. Smits, "A
 * practical analytic model for daylight" (SIGGRAPH 1999), appendix 2, with the distribution of
 * Perez, Seals and Michalsky (1993).
 */
final class Preetham {
  private final double[] luminance;
  private final double[] chromaX;
  private final double[] chromaY;
  private final double zenithX;
  private final double zenithY;
  private final double sunZenith;

  Preetham(double sunAltitudeDeg, double turbidity) {
    double t = turbidity;
    sunZenith = Math.toRadians(90 - sunAltitudeDeg);
    luminance =
        new double[] {
          0.1787 * t - 1.4630,
          -0.3554 * t + 0.4275,
          -0.0227 * t + 5.3251,
          0.1206 * t - 2.5771,
          -0.0670 * t + 0.3703
        };
    chromaX =
        new double[] {
          -0.0193 * t - 0.2592,
          -0.0665 * t + 0.0008,
          -0.0004 * t + 0.2125,
          -0.0641 * t - 0.8989,
          -0.0033 * t + 0.0452
        };
    chromaY =
        new double[] {
          -0.0167 * t - 0.2608,
          -0.0950 * t + 0.0092,
          -0.0079 * t + 0.2102,
          -0.0441 * t - 1.6537,
          -0.0109 * t + 0.0529
        };
    double s = sunZenith;
    double s2 = s * s;
    double s3 = s2 * s;
    zenithX =
        t * t * (0.00166 * s3 - 0.00375 * s2 + 0.00209 * s)
            + t * (-0.02903 * s3 + 0.06377 * s2 - 0.03202 * s + 0.00394)
            + (0.11693 * s3 - 0.21196 * s2 + 0.06052 * s + 0.25886);
    zenithY =
        t * t * (0.00275 * s3 - 0.00610 * s2 + 0.00317 * s)
            + t * (-0.04214 * s3 + 0.08970 * s2 - 0.04153 * s + 0.00516)
            + (0.15346 * s3 - 0.26756 * s2 + 0.06670 * s + 0.26688);
  }

  /**
   * The sky's colour, relative to a luminance of 1 at the zenith.
   *
   * @param altitudeDeg where one looks, degrees in [0, 90]
   * @param fromSunDeg azimuth away from the sun's, degrees in [0, 180]
   */
  Vec3 colour(double altitudeDeg, double fromSunDeg) {
    double zenith = Math.toRadians(Math.min(89.3, 90 - altitudeDeg));
    double cosGamma =
        Math.cos(zenith) * Math.cos(sunZenith)
            + Math.sin(zenith) * Math.sin(sunZenith) * Math.cos(Math.toRadians(fromSunDeg));
    double gamma = Math.acos(Math.max(-1, Math.min(1, cosGamma)));
    double brightness = relative(luminance, zenith, gamma);
    double x = zenithX * relative(chromaX, zenith, gamma);
    double y = zenithY * relative(chromaY, zenith, gamma);
    double bigX = x / y * brightness;
    double bigZ = (1 - x - y) / y * brightness;
    return new Vec3(
        Math.max(0, 3.2406 * bigX - 1.5372 * brightness - 0.4986 * bigZ),
        Math.max(0, -0.9689 * bigX + 1.8758 * brightness + 0.0415 * bigZ),
        Math.max(0, 0.0557 * bigX - 0.2040 * brightness + 1.0570 * bigZ));
  }

  private double relative(double[] c, double zenith, double gamma) {
    return perez(c, zenith, gamma) / perez(c, 0, sunZenith);
  }

  private static double perez(double[] c, double zenith, double gamma) {
    double cosGamma = Math.cos(gamma);
    return (1 + c[0] * Math.exp(c[1] / Math.cos(zenith)))
        * (1 + c[2] * Math.exp(c[3] * gamma) + c[4] * cosGamma * cosGamma);
  }
}
