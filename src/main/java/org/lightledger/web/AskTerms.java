package org.lightledger.web;

import java.time.DayOfWeek;
import java.time.Duration;
import java.time.format.TextStyle;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Shape;
import org.lightledger.ask.Sky;
import org.lightledger.ask.Terms;
import org.lightledger.spot.Trait;

/** What else a question asks for, in the form, in the address and in words. */
final class AskTerms {
  /** The fields of the terms in the address. */
  static final Set<String> FIELDS = Set.of("sky", "sun", "weekday", "least", "with", "inside");

  private static final int MOST_MINUTES = 1440;

  private AskTerms() {}

  /** Reads the terms; a bad field is named and asks for nothing. */
  static Terms read(Fields fields) {
    Sky sky =
        switch (fields.raw("sky")) {
          case "", "clear" -> Sky.CLEAR;
          case "overcast" -> Sky.OVERCAST;
          default -> {
            bad(fields, "sky", "Sky", "clear or overcast");
            yield Sky.CLEAR;
          }
        };
    Terms.SunWanted sun =
        switch (fields.raw("sun")) {
          case "", "either" -> Terms.SunWanted.EITHER;
          case "direct" -> Terms.SunWanted.DIRECT;
          case "shade" -> Terms.SunWanted.SHADE;
          default -> {
            bad(fields, "sun", "Sun on the spot", "direct or shade");
            yield Terms.SunWanted.EITHER;
          }
        };
    if (sky == Sky.OVERCAST && sun == Terms.SunWanted.DIRECT) {
      fields.problem(
          "sun",
          "Sun on the spot",
          "expected shade or either under an overcast sky, found direct sun, which clouds hide");
    }
    Double minutes = fields.number("least", "Lasting at least", 0, MOST_MINUTES, " minutes");
    return new Terms(
        sky,
        sun,
        weekdays(fields, "weekday", "Days of the week"),
        Duration.ofMinutes(minutes == null ? 0 : Math.round(minutes)),
        traits(fields),
        shape(fields));
  }

  private static void bad(Fields fields, String field, String label, String expected) {
    fields.problem(
        field, label, "expected " + expected + ", found " + Fields.quoted(fields.raw(field)));
  }

  /** The days of the week that are ticked; all of them when none is. */
  static Set<DayOfWeek> weekdays(Fields fields, String field, String label) {
    Set<DayOfWeek> days =
        picked(
            fields,
            field,
            label,
            "days such as saturday",
            code -> DayOfWeek.valueOf(code.toUpperCase(Locale.ROOT)),
            EnumSet.noneOf(DayOfWeek.class));
    return days.isEmpty() ? EnumSet.allOf(DayOfWeek.class) : days;
  }

  /** What is ticked of what a place is and has. */
  static Set<Trait> traits(Fields fields) {
    return picked(
        fields,
        "with",
        "The place",
        "what a place is or has, such as open-field",
        Trait::parse,
        EnumSet.noneOf(Trait.class));
  }

  private static <T> Set<T> picked(
      Fields fields,
      String field,
      String label,
      String expected,
      Function<String, T> parse,
      Set<T> into) {
    for (String code : fields.all(field)) {
      try {
        into.add(parse.apply(code));
      } catch (IllegalArgumentException e) {
        fields.problem(field, label, "expected " + expected + ", found " + Fields.quoted(code));
      }
    }
    return into;
  }

  private static @Nullable Shape shape(Fields fields) {
    String text = fields.raw("inside");
    try {
      return text.isEmpty() ? null : Shape.parse(text);
    } catch (IllegalArgumentException e) {
      fields.problem(
          "inside",
          "Inside a shape",
          "expected 3 to 500 corners such as 41.95,-6.61;41.96,-6.61;41.96,-6.60, found "
              + Fields.quoted(text));
      return null;
    }
  }

  /** The parts of the address; none for what is not asked for. */
  static List<String> address(Terms terms) {
    List<String> parts = new ArrayList<>();
    if (terms.sky() != Sky.CLEAR) {
      parts.add("sky=" + code(terms.sky()));
    }
    if (terms.sun() != Terms.SunWanted.EITHER) {
      parts.add("sun=" + code(terms.sun()));
    }
    if (terms.weekdays().size() < DayOfWeek.values().length) {
      terms.weekdays().stream().sorted().forEach(day -> parts.add("weekday=" + code(day)));
    }
    if (!terms.atLeast().isZero()) {
      parts.add("least=" + terms.atLeast().toMinutes());
    }
    terms.traits().stream().sorted().forEach(trait -> parts.add("with=" + trait.code()));
    Shape shape = terms.shape();
    if (shape != null) {
      parts.add("inside=" + shape.toText());
    }
    return parts;
  }

  /** The terms in words, "" for none. */
  static String words(Terms terms) {
    List<String> parts = new ArrayList<>();
    if (terms.sky() == Sky.OVERCAST) {
      parts.add("under an overcast sky");
    }
    switch (terms.sun()) {
      case EITHER -> {}
      case DIRECT -> parts.add("where the sun is known to reach the spot");
      case SHADE -> parts.add("where the sun is known not to reach the spot");
    }
    if (terms.weekdays().size() < DayOfWeek.values().length) {
      parts.add(
          "on "
              + joined(
                  terms.weekdays().stream().sorted().map(AskTerms::name).map(d -> d + "s").toList(),
                  "or"));
    }
    if (!terms.atLeast().isZero()) {
      parts.add("for at least " + terms.atLeast().toMinutes() + " min");
    }
    if (!terms.traits().isEmpty()) {
      parts.add(
          "where the place has: "
              + joined(terms.traits().stream().sorted().map(Trait::label).toList(), "and"));
    }
    Shape shape = terms.shape();
    if (shape != null) {
      parts.add("inside a shape of " + shape.corners().size() + " corners");
    }
    return parts.isEmpty() ? "" : "Only " + String.join("; ", parts) + ".";
  }

  static String joined(List<String> words, String link) {
    int last = words.size() - 1;
    return last < 1
        ? String.join("", words)
        : String.join(", ", words.subList(0, last)) + " " + link + " " + words.get(last);
  }

  /** The days of the week to pick from; none is picked when all are meant. */
  static List<AskPage.Choice> weekdayChoices(Set<DayOfWeek> picked) {
    boolean all = picked.size() == DayOfWeek.values().length;
    List<AskPage.Choice> choices = new ArrayList<>();
    for (DayOfWeek day : DayOfWeek.values()) {
      choices.add(
          new AskPage.Choice(
              code(day),
              day.getDisplayName(TextStyle.SHORT, Locale.ENGLISH),
              !all && picked.contains(day)));
    }
    return choices;
  }

  static List<AskPage.Choice> traitChoices(Set<Trait> picked) {
    List<AskPage.Choice> choices = new ArrayList<>();
    for (Trait trait : Trait.values()) {
      choices.add(new AskPage.Choice(trait.code(), trait.label(), picked.contains(trait)));
    }
    return choices;
  }

  static String name(DayOfWeek day) {
    return day.getDisplayName(TextStyle.FULL, Locale.ENGLISH);
  }

  static String code(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT);
  }
}
