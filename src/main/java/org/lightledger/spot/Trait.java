package org.lightledger.spot;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** What kind of place a spot is, and what one finds there, by the owner's word. */
public enum Trait {
  /** Among trees. */
  WOODS("woods"),
  /** Streets and buildings. */
  TOWN("town"),
  /** At a river, a lake or the sea. */
  WATER("water"),
  /** Meadow, heath, beach. */
  OPEN_FIELD("open field"),
  /** Inside a building. */
  INDOORS("indoors"),
  /** Under a roof or an arch, open to a side. */
  COVERED("covered"),
  /** One can park close by. */
  PARKING("parking"),
  /** Reached without steps or rough ground. */
  LEVEL_ACCESS("level access"),
  /** Somewhere to change clothes. */
  PLACE_TO_CHANGE("place to change"),
  /** No permit is needed, as far as the owner knows. */
  NO_PERMIT("no permit needed");

  private final String label;

  Trait(String label) {
    this.label = label;
  }

  /**
   * The word on screens.
   *
   * @return for example "open field"
   */
  public String label() {
    return label;
  }

  /**
   * The word on the command line and in addresses.
   *
   * @return for example "open-field"
   */
  public String code() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /**
   * Reads a code.
   *
   * @param code for example "open-field"; case does not matter
   * @return the trait
   * @throws IllegalArgumentException naming what was found and what is possible
   */
  public static Trait parse(String code) {
    String wanted = code.strip().toLowerCase(Locale.ROOT);
    for (Trait trait : values()) {
      if (trait.code().equals(wanted)) {
        return trait;
      }
    }
    throw new IllegalArgumentException(
        "expected one of "
            + Arrays.stream(values()).map(Trait::code).collect(Collectors.joining(", "))
            + "; found \""
            + code
            + "\"");
  }
}
