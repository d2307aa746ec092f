package org.lightledger.web;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineFlag;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.web.chart.SkylineShape;

/** Says in words what is known of a skyline, and what would tell more. */
final class SkylineViews {
  /** Parts of the circle that are told in words. */
  private static final int SECTORS = 16;

  private static final int STEPS_PER_SECTOR = Skyline.STEPS / SECTORS;

  private SkylineViews() {}

  static SkyView.Around around(
      long spotId,
      @Nullable Skyline skyline,
      boolean waiting,
      @Nullable String problem,
      List<String> remarks) {
    if (skyline == null) {
      return new SkyView.Around(
          false,
          false,
          false,
          "What stands around this spot is not known. The chart shows the sun alone, and whether it"
              + " reaches the spot can not be told.",
          settle(spotId),
          waiting,
          problem,
          sentences(remarks),
          List.of());
    }
    Set<SkylineShape.Knowledge> found = SkylineShape.around(skyline);
    boolean lower = found.contains(SkylineShape.Knowledge.LOWER_BOUND);
    boolean gaps = found.contains(SkylineShape.Knowledge.NOT_KNOWN);
    return new SkyView.Around(
        found.contains(SkylineShape.Knowledge.KNOWN),
        lower,
        gaps,
        state(skyline),
        lower || gaps ? settle(spotId) : List.of(),
        waiting,
        problem,
        sentences(remarks),
        rows(skyline));
  }

  private static List<SkyView.Step> settle(long spotId) {
    return List.of(
        new SkyView.Step("Add elevation or a map of the country around", "/surroundings"),
        new SkyView.Step(
            "Draw a building or trees by hand", "/surroundings/obstructions?spot=" + spotId),
        new SkyView.Step("Measure the skyline by hand", "#measured"),
        new SkyView.Step("Say of a shot whether the sun was on the subject", "#shots-head"));
  }

  private static List<String> sentences(List<String> remarks) {
    return remarks.stream()
        .map(Words::capital)
        .map(remark -> remark.endsWith(".") ? remark : remark + ".")
        .toList();
  }

  private static String state(Skyline skyline) {
    Map<SkylineShape.Knowledge, Integer> steps = new EnumMap<>(SkylineShape.Knowledge.class);
    Map<SkylineSource, Integer> sources = new EnumMap<>(SkylineSource.class);
    for (int step = 0; step < Skyline.STEPS; step++) {
      steps.merge(SkylineShape.between(skyline, step), 1, Integer::sum);
      sources.merge(skyline.source(step), 1, Integer::sum);
    }
    sources.remove(SkylineSource.NOT_KNOWN);
    List<String> parts = new ArrayList<>();
    sources.forEach(
        (source, count) ->
            parts.add(
                source(source)
                    + (count == Skyline.STEPS
                        ? " all around"
                        : " in " + wholeDegrees(count) + " of 360°")));
    StringBuilder text = new StringBuilder("The skyline rests on ");
    text.append(String.join(", on ", parts)).append('.');
    int lower = steps.getOrDefault(SkylineShape.Knowledge.LOWER_BOUND, 0);
    if (lower > 0) {
      text.append(" In ")
          .append(wholeDegrees(lower))
          .append(" of 360° it is only a lower bound: something higher may stand there.");
    }
    int gaps = steps.getOrDefault(SkylineShape.Knowledge.NOT_KNOWN, 0);
    if (gaps > 0) {
      text.append(" In ").append(wholeDegrees(gaps)).append(" of 360° nothing is known.");
    }
    return text.toString();
  }

  private static String wholeDegrees(int steps) {
    double angleDeg = steps * Skyline.STEP_DEG;
    return angleDeg < 1 ? "less than 1" : String.format(Locale.ROOT, "%.0f", angleDeg);
  }

  static String source(SkylineSource source) {
    return switch (source) {
      case NOT_KNOWN -> "nothing";
      case TERRAIN -> "the land";
      case BUILDING -> "buildings";
      case TREES -> "trees";
      case MEASURED -> "what you measured";
      case SHOT -> "what shots prove";
    };
  }

  private static List<SkyView.Row> rows(Skyline skyline) {
    List<SkyView.Row> rows = new ArrayList<>();
    for (int sector = 0; sector < SECTORS; sector++) {
      int middle = sector * STEPS_PER_SECTOR;
      rows.add(row(skyline, middle));
    }
    return rows;
  }

  private static SkyView.Row row(Skyline skyline, int middle) {
    int highest = -1;
    boolean gaps = false;
    for (int i = -STEPS_PER_SECTOR / 2; i <= STEPS_PER_SECTOR / 2; i++) {
      int step = Math.floorMod(middle + i, Skyline.STEPS);
      if (skyline.source(step) == SkylineSource.NOT_KNOWN) {
        gaps = true;
      } else if (highest < 0 || skyline.altitudeDeg(step) > skyline.altitudeDeg(highest)) {
        highest = step;
      }
    }
    String direction = Words.bearing(Bearing.of(Skyline.azimuthDeg(middle)));
    if (highest < 0) {
      return new SkyView.Row(direction, "not known", "");
    }
    return new SkyView.Row(
        direction,
        altitude(skyline, highest) + (gaps ? "; in part not known" : ""),
        Words.capital(source(skyline.source(highest)))
            + ", at "
            + Words.degrees(Skyline.azimuthDeg(highest)));
  }

  private static String altitude(Skyline skyline, int step) {
    String bound =
        skyline.lowerBoundOnly(step)
            ? "at least "
            : skyline.flags(step).contains(SkylineFlag.AT_MOST) ? "at most " : "";
    return bound
        + Words.fineDegrees(tenths(skyline.altitudeDeg(step)))
        + " ± "
        + SunWords.uncertainty(skyline.uncertaintyDeg(step));
  }

  /** Rounded, and never a negative zero. */
  private static double tenths(double angleDeg) {
    return Math.round(angleDeg * 10) / 10.0;
  }
}
