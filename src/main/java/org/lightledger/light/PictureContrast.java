package org.lightledger.light;

import java.util.Locale;

/**
 * The contrast of a picture: how many stops lie between its 5th and its 95th percentile of
 * luminance. It is an approximation of the scene's: a camera bends its tones as it likes, and what
 * it clips is gone. A picture as cameras write them shows less than there was, hardly ever more.
 *
 * @param stops log2 of the luminance at the 95th percentile over that at the 5th, 0 or more
 * @param blackShare how much of the picture is as dark as can be, [0, 1]
 * @param whiteShare how much of it is as light as can be, [0, 1]
 */
public record PictureContrast(double stops, double blackShare, double whiteShare) {
  private static final int CODES = 256;

  /** Finer than the codes lie apart in the lights, where they lie widest: own choice. */
  private static final int BINS = 4096;

  private static final double LOW = 0.05;
  private static final double HIGH = 0.95;

  /** Codes at which a channel counts as clipped: own choice, as a lossy file strays by one. */
  private static final int WHITE_FROM = 254;

  private static final int BLACK_UP_TO = 1;

  /** Linear light by code: the transfer function of sRGB, IEC 61966-2-1:1999. */
  private static final double[] LINEAR = new double[CODES];

  static {
    for (int code = 0; code < CODES; code++) {
      double value = code / 255.0;
      LINEAR[code] = value <= 0.04045 ? value / 12.92 : Math.pow((value + 0.055) / 1.055, 2.4);
    }
  }

  /**
   * The contrast of a picture.
   *
   * @param pixels sRGB, eight bits each of red, green and blue in the lowest 24 bits; one or more
   * @return its contrast
   * @throws IllegalArgumentException when there are no pixels
   */
  public static PictureContrast of(int[] pixels) {
    if (pixels.length == 0) {
      throw new IllegalArgumentException("expected a picture with pixels, found none");
    }
    int[] counts = new int[BINS];
    int black = 0;
    int white = 0;
    for (int pixel : pixels) {
      int red = pixel >> 16 & 0xff;
      int green = pixel >> 8 & 0xff;
      int blue = pixel & 0xff;
      black += Math.max(red, Math.max(green, blue)) <= BLACK_UP_TO ? 1 : 0;
      white += Math.min(red, Math.min(green, blue)) >= WHITE_FROM ? 1 : 0;
      counts[bin(luminance(red, green, blue))]++;
    }
    double low = luminanceOf(percentile(counts, LOW * pixels.length));
    double high = luminanceOf(percentile(counts, HIGH * pixels.length));
    return new PictureContrast(
        Math.log(high / low) / Math.log(2),
        (double) black / pixels.length,
        (double) white / pixels.length);
  }

  /** Relative luminance with the primaries of sRGB: ITU-R BT.709. */
  private static double luminance(int red, int green, int blue) {
    return 0.2126 * LINEAR[red] + 0.7152 * LINEAR[green] + 0.0722 * LINEAR[blue];
  }

  /** Bins are even in logarithm, from the darkest code but black up to white. */
  private static int bin(double luminance) {
    double part = 1.0 - Math.log(Math.max(luminance, LINEAR[1])) / Math.log(LINEAR[1]);
    return (int) Math.round(part * (BINS - 1));
  }

  private static double luminanceOf(int bin) {
    return Math.pow(LINEAR[1], 1.0 - bin / (BINS - 1.0));
  }

  private static int percentile(int[] counts, double rank) {
    long below = 0;
    for (int bin = 0; bin < BINS; bin++) {
      below += counts[bin];
      if (below >= rank) {
        return bin;
      }
    }
    return BINS - 1;
  }

  /**
   * Whether one of the percentiles is clipped, so that the contrast was larger than can be seen.
   *
   * @return true when more than a twentieth is black or white
   */
  public boolean isClipped() {
    return blackShare > LOW || whiteShare > 1.0 - HIGH;
  }

  /**
   * The contrast in words.
   *
   * @return for example "about 4.6 stops, 7 % of it clipped to white"
   */
  public String words() {
    StringBuilder text = new StringBuilder(isClipped() ? "at least " : "about ");
    text.append(String.format(Locale.ROOT, "%.1f stops", stops));
    clipped(text, blackShare, "black");
    clipped(text, whiteShare, "white");
    return text.toString();
  }

  private static void clipped(StringBuilder text, double share, String end) {
    if (share >= 0.005) {
      text.append(String.format(Locale.ROOT, ", %.0f %% clipped to %s", 100 * share, end));
    }
  }
}
