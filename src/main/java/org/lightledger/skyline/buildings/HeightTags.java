package org.lightledger.skyline.buildings;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * Heights as OpenStreetMap tags them (Key:height, Key:min_height, "Simple 3D Buildings"): {@code
 * height}, roof included; else {@code building:levels} times 3 m and {@code roof:height}, or {@code
 * roof:levels} times 3 m, on top; else the kind's assumed height. The lower side is {@code
 * min_height}, else {@code building:min_level} times 3 m, else the ground. A tag that can not be
 * used counts as absent and is told.
 *
 * @param heightM the top above the ground, metres in (minHeightM, 1000]
 * @param minHeightM the lower side above the ground, metres, 0 or more
 * @param source where the height comes from
 * @param problems what is wrong with the tags
 */
public record HeightTags(
    double heightM, double minHeightM, HeightSource source, List<String> problems) {

  /** More storeys than any building has: those of {@value Heights#HIGHEST_M} metres. */
  private static final double MOST_LEVELS = Heights.HIGHEST_M / Heights.STOREY_M;

  /**
   * Reads the tags of one thing.
   *
   * @param kind what it is
   * @param tags its tags, keys to values
   * @return its heights
   */
  public static HeightTags of(ObstructionKind kind, Map<String, String> tags) {
    List<String> problems = new ArrayList<>();
    double minHeightM = minHeightM(tags, problems);
    OptionalDouble given = lengthM(tags, "height", problems);
    HeightSource source = HeightSource.GIVEN;
    if (given.isEmpty() && kind == ObstructionKind.BUILDING) {
      given = levelsM(tags, problems);
      source = HeightSource.LEVELS;
    }
    if (given.isPresent() && !(given.getAsDouble() > minHeightM)) {
      problems.add(
          "expected a height above min_height, found %s m and %s m; the height is not used"
              .formatted(given.getAsDouble(), minHeightM));
      given = OptionalDouble.empty();
    }
    if (given.isPresent()) {
      return new HeightTags(given.getAsDouble(), minHeightM, source, List.copyOf(problems));
    }
    return new HeightTags(
        Math.min(minHeightM + kind.assumedHeightM(), Heights.HIGHEST_M),
        minHeightM,
        HeightSource.ASSUMED,
        List.copyOf(problems));
  }

  /**
   * A width in metres that a tag tells.
   *
   * @param tags the tags
   * @param key which of them
   * @param problems where a tag that can not be used is told
   * @return the width, in (0, 1000], or nothing
   */
  public static OptionalDouble lengthM(
      Map<String, String> tags, String key, List<String> problems) {
    String text = tags.get(key);
    if (text == null) {
      return OptionalDouble.empty();
    }
    try {
      double lengthM = Heights.lengthM(key, text);
      if (lengthM > 0.0 && lengthM <= Heights.HIGHEST_M) {
        return OptionalDouble.of(lengthM);
      }
      problems.add("expected %s in (0, 1000] metres, found \"%s\"".formatted(key, text));
    } catch (IllegalArgumentException e) {
      problems.add(String.valueOf(e.getMessage()));
    }
    return OptionalDouble.empty();
  }

  private static double minHeightM(Map<String, String> tags, List<String> problems) {
    double lowestM = 0.0;
    if (!isZero(tags.get("min_height"))) {
      OptionalDouble given = lengthM(tags, "min_height", problems);
      OptionalDouble levels =
          given.isPresent() ? OptionalDouble.empty() : levels(tags, "building:min_level", problems);
      lowestM = given.orElse(levels.orElse(0.0) * Heights.STOREY_M);
    }
    return lowestM < Heights.HIGHEST_M ? lowestM : 0.0;
  }

  private static boolean isZero(@Nullable String text) {
    return text != null && text.strip().matches("0+(\\.0+)?\\s*m?");
  }

  private static OptionalDouble levelsM(Map<String, String> tags, List<String> problems) {
    OptionalDouble levels = levels(tags, "building:levels", problems);
    if (levels.isEmpty()) {
      return OptionalDouble.empty();
    }
    OptionalDouble roofM =
        isZero(tags.get("roof:height"))
            ? OptionalDouble.of(0.0)
            : lengthM(tags, "roof:height", problems);
    double aboveM =
        roofM.orElseGet(() -> levels(tags, "roof:levels", problems).orElse(0.0) * Heights.STOREY_M);
    double heightM = levels.getAsDouble() * Heights.STOREY_M + aboveM;
    if (heightM > 0.0 && heightM <= Heights.HIGHEST_M) {
      return OptionalDouble.of(heightM);
    }
    problems.add("expected storeys or a roof, found %s m of both".formatted(heightM));
    return OptionalDouble.empty();
  }

  private static OptionalDouble levels(
      Map<String, String> tags, String key, List<String> problems) {
    String text = tags.get(key);
    if (text == null) {
      return OptionalDouble.empty();
    }
    if (text.strip().matches("\\d{1,3}(\\.\\d{1,2})?")) {
      double levels = Double.parseDouble(text.strip());
      if (levels <= MOST_LEVELS) {
        return OptionalDouble.of(levels);
      }
    }
    problems.add("expected %s as a count of storeys such as 4, found \"%s\"".formatted(key, text));
    return OptionalDouble.empty();
  }
}
