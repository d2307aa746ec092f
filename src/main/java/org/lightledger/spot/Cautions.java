package org.lightledger.spot;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** What to mind at a spot in words: the usual advice on its hazards, then the owner's own words. */
public final class Cautions {
  /** The care that a client is asked for at every place; common practice, no source. */
  public static final String FOR_EVERYBODY =
      "Please do not look into the sun, and keep to paths and local rules at roads, water and"
          + " private land.";

  private Cautions() {}

  /**
   * For the owner.
   *
   * @param hazards the spot's hazards
   * @param words the owner's own words, "" for none
   * @return a line each; "" for nothing to mind
   */
  public static String forOwner(Set<Hazard> hazards, String words) {
    return lines(hazards.stream().sorted().map(Hazard::toText).toList(), words);
  }

  /**
   * For a client.
   *
   * @param hazards the spot's hazards
   * @param words the owner's own words, "" for none
   * @return a line each; "" for nothing to mind
   */
  public static String forClient(Set<Hazard> hazards, String words) {
    return lines(hazards.stream().sorted().map(Hazard::clientWords).toList(), words);
  }

  private static String lines(List<String> advice, String words) {
    List<String> lines = new ArrayList<>(advice);
    if (!words.isEmpty()) {
      lines.add(words);
    }
    if (!advice.isEmpty()) {
      lines.add(Hazard.RULES_FIRST);
    }
    return String.join("\n", lines);
  }
}
