package org.lightledger.light;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** The light on a subject that faces the camera. */
public enum LightClass {
  /** The sun stands behind the subject. */
  BACKLIT("backlit"),
  /** Three-quarter back light: a lit edge. */
  RIM("rim"),
  /** The sun stands to the side. */
  SIDE("side"),
  /** Three-quarter front light. */
  THREE_QUARTER_FRONT("three-quarter front"),
  /** The sun stands behind the camera. */
  FRONT("front"),
  /** The sun stands high. */
  OVERHEAD("overhead"),
  /** The sun is up, but something hides it from the spot. */
  OPEN_SHADE("open shade"),
  /** The sun is below the horizon and the sky still lights the subject. */
  TWILIGHT("twilight"),
  /** The sun is so low that the sky gives no usable light. */
  DARK("dark");

  private final String label;

  LightClass(String label) {
    this.label = label;
  }

  /**
   * The word on screens.
   *
   * @return for example "three-quarter front"
   */
  public String label() {
    return label;
  }

  /**
   * The word on the command line and in addresses.
   *
   * @return for example "three-quarter-front"
   */
  public String code() {
    return label.replace(' ', '-');
  }

  /**
   * Reads a code.
   *
   * @param code for example "open-shade"; case does not matter
   * @return the class
   * @throws IllegalArgumentException naming what was found and what is possible
   */
  public static LightClass parse(String code) {
    String wanted = code.strip().toLowerCase(Locale.ROOT);
    for (LightClass light : values()) {
      if (light.code().equals(wanted)) {
        return light;
      }
    }
    throw new IllegalArgumentException(
        "expected a light class (one of "
            + Arrays.stream(values()).map(LightClass::code).collect(Collectors.joining(", "))
            + "), found \""
            + code
            + "\"");
  }
}
