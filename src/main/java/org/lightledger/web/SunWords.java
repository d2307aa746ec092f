package org.lightledger.web;

import java.time.OffsetDateTime;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.SpotLight;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.Clearance;
import org.lightledger.skyline.Skyline;
import org.lightledger.sun.SunDirection;

/**
 * Whether the sun reaches a spot, in words.
 *
 * @param kind "direct", "shade", "not-known" (also when it is too close to tell) or "down", for the
 *     mark
 * @param word the same for the reader
 * @param clearance by how much, "" when that is not known
 */
record SunWords(String kind, String word, String clearance) {

  static SunWords of(@Nullable Skyline skyline, SunDirection sun) {
    SpotLight light = SpotLight.of(sun, sun.azimuth(), skyline);
    return of(light.light(), light.directSun(), light.clearance());
  }

  static SunWords of(LightClass light, @Nullable Boolean directSun, @Nullable Clearance clearance) {
    if (light == LightClass.TWILIGHT || light == LightClass.DARK) {
      return new SunWords("down", "sun below the horizon", "");
    }
    String by = clearance == null ? "" : words(clearance);
    if (directSun == null) {
      return new SunWords(
          "not-known",
          "direct sun: not known",
          clearance == null ? "no skyline is known in its direction" : by);
    }
    if (clearance != null && !clearance.certain()) {
      return new SunWords(
          "not-known", directSun ? "direct sun not certain" : "open shade not certain", by);
    }
    return directSun
        ? new SunWords("direct", "direct sun", by)
        : new SunWords("shade", "open shade", by);
  }

  /** The same with the end of the direct sun, which is as sure as the sun itself is. */
  String wordUntil(@Nullable OffsetDateTime until) {
    if (until == null) {
      return word;
    }
    return word + (kind.equals("direct") ? " until " : "; as modelled until ") + Words.hour(until);
  }

  private static String words(Clearance clearance) {
    double marginDeg = clearance.marginDeg();
    String what =
        switch (clearance.source()) {
          case NOT_KNOWN -> "a level horizon";
          case TERRAIN -> "the land";
          case BUILDING -> "a building";
          case TREES -> "trees";
          case MEASURED -> "the skyline you measured";
          case SHOT -> "the skyline proven by a shot";
        };
    String by = String.format(Locale.ROOT, "%.1f°", Math.abs(marginDeg));
    String about = " (± " + uncertainty(clearance.uncertaintyDeg()) + ")";
    String sure =
        Math.abs(marginDeg) <= clearance.uncertaintyDeg()
            ? ": too close to tell"
            : clearance.direct() && clearance.lowerBoundOnly()
                ? ", which may be higher than is known"
                : "";
    return (clearance.direct() ? by + about + " above " : by + about + " behind ") + what + sure;
  }

  /** One standard deviation in tenths of a degree; never an uncertainty of nothing. */
  static String uncertainty(double uncertaintyDeg) {
    return uncertaintyDeg < 0.05 ? "less than 0.1°" : Words.fineDegrees(uncertaintyDeg);
  }
}
