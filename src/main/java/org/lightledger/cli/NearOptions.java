package org.lightledger.cli;

import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Question;
import org.lightledger.geo.GeoPoint;
import picocli.CommandLine.Option;

/** The options that name a circle on the ground. */
final class NearOptions {
  @Option(names = "--within", paramLabel = "M", description = "Only spots within so many metres…")
  private @Nullable Double withinM;

  @Option(names = "--of", paramLabel = "LAT,LON", description = "… of this place.")
  private @Nullable String of;

  /** The circle, or null when none is named. */
  Question.@Nullable Near near() {
    String place = of;
    Double radiusM = withinM;
    if (place == null && radiusM == null) {
      return null;
    }
    if (place == null || radiusM == null) {
      throw new IllegalArgumentException(
          "--within and --of: expected both or neither, found only "
              + (place == null ? "--within" : "--of"));
    }
    return new Question.Near(GeoPoint.parse(place), radiusM);
  }
}
