package org.lightledger.spot;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/**
 * What is dangerous or forbidden at a spot, by the owner's word. The advice is common practice, no
 * source; it never stands above the local rules.
 */
public enum Hazard {
  /** Tracks on which trains may run. */
  RAILWAY(
      "railway tracks",
      "Never photograph on or beside the tracks: it is trespass in most countries, and trains are"
          + " quieter and faster than expected.",
      "There are railway tracks nearby. We stay off them and well away from them."),
  /** Cars pass close by. */
  ROAD(
      "road traffic",
      "Stay off the carriageway. While one looks through the camera, somebody else has to watch the"
          + " traffic.",
      "Cars pass close by. Please stay beside the road, and cross only together."),
  /** Deep, fast, cold or tidal. */
  WATER(
      "deep or moving water",
      "Keep back from the edge: wet ground slips, and water may be faster, colder or rising. Nobody"
          + " goes in for a picture.",
      "There is deep or moving water. Please keep back from the edge and wear shoes that hold."),
  /** A cliff, a wall or an edge. */
  DROP(
      "cliff or drop",
      "Keep everybody some metres from the edge, which may be undercut, and let nobody step"
          + " backwards.",
      "There is a drop. Please keep some metres away from it and do not step backwards."),
  /** Somebody's ground. */
  PRIVATE_LAND(
      "private land",
      "Ask whoever owns it first, and keep to what was allowed.",
      "This is private land. Please keep to where you are led."),
  /** Pictures need a permit. */
  PERMIT(
      "permit needed",
      "Have the permit before the day and carry it with you; paid pictures may need another than"
          + " private ones.",
      "Pictures here need a permit, which your photographer sees to.");

  /** What every advice ends with. */
  public static final String RULES_FIRST = "Local rules and signs come first.";

  private final String label;
  private final String advice;
  private final String clientWords;

  Hazard(String label, String advice, String clientWords) {
    this.label = label;
    this.advice = advice;
    this.clientWords = clientWords;
  }

  /**
   * The word on screens.
   *
   * @return for example "railway tracks"
   */
  public String label() {
    return label;
  }

  /**
   * The usual advice to the photographer.
   *
   * @return one or two sentences
   */
  public String advice() {
    return advice;
  }

  /**
   * What it is and the usual advice to the photographer.
   *
   * @return for example "Railway tracks. Never …"
   */
  public String toText() {
    return Character.toUpperCase(label.charAt(0)) + label.substring(1) + ". " + advice;
  }

  /**
   * The usual advice to a client.
   *
   * @return one or two sentences
   */
  public String clientWords() {
    return clientWords;
  }

  /**
   * The word in addresses and forms.
   *
   * @return for example "private-land"
   */
  public String code() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /**
   * Reads a code.
   *
   * @param code for example "private-land"; case does not matter
   * @return the hazard
   * @throws IllegalArgumentException naming what was found and what is possible
   */
  public static Hazard parse(String code) {
    String wanted = code.strip().toLowerCase(Locale.ROOT);
    for (Hazard hazard : values()) {
      if (hazard.code().equals(wanted)) {
        return hazard;
      }
    }
    throw new IllegalArgumentException(
        "expected one of "
            + Arrays.stream(values()).map(Hazard::code).collect(Collectors.joining(", "))
            + "; found \""
            + code
            + "\"");
  }
}
