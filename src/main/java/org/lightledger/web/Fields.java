package org.lightledger.web;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.share.Said;

/**
 * Reads the fields of a form. A bad field does not stop the reading, so that all of them can be
 * named at once.
 */
final class Fields {
  /** What a field of a form showed is in another one, whose name starts so. */
  static final String SHOWN = "shown-";

  private static final int SHOWN_LENGTH = 40;

  private final Function<String, List<String>> source;
  private final List<FieldProblem> problems = new ArrayList<>();

  Fields(Function<String, List<String>> source) {
    this.source = source;
  }

  List<FieldProblem> problems() {
    return List.copyOf(problems);
  }

  void problem(String field, String label, String message) {
    problems.add(new FieldProblem(field, label, message));
  }

  /** Throws when a field was bad. */
  void check() {
    if (!problems.isEmpty()) {
      throw PageProblem.badFields(problems);
    }
  }

  List<String> all(String field) {
    return source.apply(field).stream().map(String::strip).filter(v -> !v.isEmpty()).toList();
  }

  /** The field's text without surrounding space, or "". */
  String raw(String field) {
    List<String> values = source.apply(field);
    return values.isEmpty() ? "" : values.get(0).strip();
  }

  boolean ticked(String field) {
    return !raw(field).isEmpty();
  }

  String text(String field, String label, int mostCharacters) {
    String text = raw(field).replace("\r\n", "\n");
    if (text.length() > mostCharacters) {
      problem(
          field,
          label,
          "expected at most " + mostCharacters + " characters, found " + text.length());
      return text.substring(0, mostCharacters);
    }
    return text;
  }

  /**
   * Words with what the page showed in their place. A page that does not tell showed nothing: so it
   * can add words, and never takes any away.
   */
  Said said(String field, String label, int mostCharacters) {
    return new Said(text(field, label, mostCharacters), shown(field));
  }

  /** Words as they were typed, however many, with what the page showed in their place. */
  Said typed(String field) {
    return new Said(raw(field), shown(field));
  }

  private String shown(String field) {
    String shown = raw(SHOWN + field);
    return shown.isEmpty() ? Said.fingerprint("") : shown;
  }

  String required(String field, String label, int mostCharacters) {
    String text = text(field, label, mostCharacters);
    if (text.isEmpty()) {
      problem(field, label, "expected some words, found nothing");
    }
    return text;
  }

  /** One line of words, without line breaks and other control characters. */
  String line(String field, String label, int mostCharacters) {
    String text = required(field, label, mostCharacters);
    if (text.chars().anyMatch(Character::isISOControl)) {
      problem(field, label, "expected one line, found a line break or another control character");
    }
    return text;
  }

  /** A whole number; null when the field is empty or bad. */
  @Nullable Integer whole(String field, String label, int least, int most, String unit) {
    Double value = number(field, label, least, most, unit);
    if (value == null) {
      return null;
    }
    if (value != Math.rint(value)) {
      problem(field, label, "expected a whole number, found " + quoted(raw(field)));
      return null;
    }
    return (int) Math.rint(value);
  }

  /** A whole number that must be there; the least one stands for a bad one. */
  int needed(String field, String label, int least, int most, String unit) {
    if (raw(field).isEmpty()) {
      problem(field, label, range(least, most, unit) + "nothing");
    }
    Integer value = whole(field, label, least, most, unit);
    return value == null ? least : value;
  }

  @Nullable LocalDate day(String field, String label) {
    String text = raw(field);
    try {
      return text.isEmpty() ? null : LocalDate.parse(text);
    } catch (DateTimeException e) {
      problem(field, label, "expected a day such as 2026-12-15, found " + quoted(text));
      return null;
    }
  }

  @Nullable LocalTime clock(String field, String label) {
    String text = raw(field);
    try {
      return text.isEmpty() ? null : LocalTime.parse(text);
    } catch (DateTimeException e) {
      problem(field, label, "expected a time such as 17:30, found " + quoted(text));
      return null;
    }
  }

  @Nullable Double number(String field, String label, double least, double most, String unit) {
    String text = raw(field).replace(',', '.');
    if (text.isEmpty()) {
      return null;
    }
    try {
      double value = Double.parseDouble(text);
      if (value >= least && value <= most) {
        return value;
      }
    } catch (NumberFormatException e) {
      problem(field, label, range(least, most, unit) + quoted(text));
      return null;
    }
    problem(field, label, range(least, most, unit) + quoted(text));
    return null;
  }

  @Nullable GeoPoint place(String field, String label) {
    String text = raw(field);
    try {
      return text.isEmpty() ? null : GeoPoint.parse(text);
    } catch (IllegalArgumentException e) {
      problem(
          field,
          label,
          "expected latitude and longitude in degrees such as 41.95,-6.61, found " + quoted(text));
      return null;
    }
  }

  @Nullable LightClass light(String field, String label, String code) {
    try {
      return LightClass.parse(code);
    } catch (IllegalArgumentException e) {
      problem(field, label, "expected a light such as backlit, found " + quoted(code));
      return null;
    }
  }

  /** What was found, also when that is nothing. */
  static String found(String text) {
    return text.isEmpty() ? "nothing" : quoted(text);
  }

  static String quoted(String text) {
    String shown = text.length() > SHOWN_LENGTH ? text.substring(0, SHOWN_LENGTH) + "…" : text;
    return "\"" + shown + "\"";
  }

  private static String range(double least, double most, String unit) {
    return "expected a number from "
        + Words.plain(least)
        + " to "
        + Words.plain(most)
        + unit
        + ", found ";
  }
}
