package org.lightledger.skyline.buildings;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Heights as people write them. */
final class Heights {
  /**
   * A storey, metres: OpenStreetMap's "Simple 3D Buildings" renders a level without a height so.
   */
  static final double STOREY_M = 3.0;

  /** Nothing built is higher, metres: Burj Khalifa, 828, with some room. */
  static final double HIGHEST_M = 1000.0;

  /** A foot, metres (International yard and pound agreement, 1959). */
  private static final double FOOT_M = 0.3048;

  private static final double INCHES_PER_FOOT = 12.0;

  /**
   * OpenStreetMap, Key:height: metres without a unit, or with "m"; feet with "ft" or "'", and
   * inches after them.
   */
  private static final Pattern WRITTEN =
      Pattern.compile(
          "(-?\\d+(?:\\.\\d+)?)\\s*(?:(m)|(ft|')\\s*(?:(\\d+(?:\\.\\d+)?)\\s*(?:in|\"|''))?)?",
          Pattern.CASE_INSENSITIVE);

  private Heights() {}

  /** A property in metres, or nothing when it is absent; refused when it is not a length. */
  static OptionalDouble lengthM(JsonNode properties, String name) {
    JsonNode value = properties.path(name);
    if (value.isNumber()) {
      return OptionalDouble.of(value.doubleValue());
    }
    if (!value.isTextual()) {
      return OptionalDouble.empty();
    }
    return OptionalDouble.of(lengthM(name, value.textValue()));
  }

  /** A length as people write it, in metres; refused when it is none. */
  static double lengthM(String name, String text) {
    Matcher written = WRITTEN.matcher(text.strip());
    if (!written.matches()) {
      throw new IllegalArgumentException(
          "expected %s as metres such as 12.5, found \"%s\"".formatted(name, text));
    }
    double number = Double.parseDouble(written.group(1));
    if (written.group(3) == null) {
      return number;
    }
    String inches = written.group(4);
    return (number + (inches == null ? 0.0 : Double.parseDouble(inches) / INCHES_PER_FOOT))
        * FOOT_M;
  }
}
