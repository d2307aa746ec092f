package org.lightledger.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Question;
import org.lightledger.ask.QuestionText;
import org.lightledger.ask.Terms;
import org.lightledger.ask.TimeOfDay;
import org.lightledger.light.LightClass;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** The options that make up a question. */
final class QuestionOptions {
  @Option(
      names = "--light",
      required = true,
      paramLabel = "CLASS[,CLASS]",
      description =
          "Which light: backlit, rim, side, three-quarter-front, front, overhead, open-shade,"
              + " twilight, dark.")
  String light;

  @Option(
      names = "--on",
      required = true,
      paramLabel = "DATE[..DATE]",
      description = "Which day or days at the place, such as 2026-12-12.")
  String on;

  @Option(
      names = "--at",
      required = true,
      paramLabel = "HH:MM[..HH:MM]",
      description = "Which hour at the place; or from the sun, such as sunset-60m.")
  String at;

  @Mixin NearOptions nearOptions;

  @Mixin TermsOptions termsOptions;

  Question question() {
    return question(light, on, at, nearOptions::near, termsOptions);
  }

  /** Reads a question, naming everything that is wrong with it at once. */
  static Question question(
      String light,
      String on,
      String at,
      Supplier<Question.@Nullable Near> where,
      TermsOptions termsOptions) {
    List<String> faults = new ArrayList<>();
    Set<LightClass> lights = read(() -> QuestionText.parseLights(light), "--light", faults);
    QuestionText.Days days = read(() -> QuestionText.parseDays(on), "--on", faults);
    TimeOfDay time = read(() -> QuestionText.parseTime(at), "--at", faults);
    Question.Near near = read(where, "where", faults);
    Terms terms = termsOptions.terms(faults);
    if (lights == null || days == null || time == null || !faults.isEmpty()) {
      throw new IllegalArgumentException(String.join(System.lineSeparator(), faults));
    }
    return new Question(lights, days.first(), days.last(), time, near, terms);
  }

  static <T> @Nullable T read(Supplier<@Nullable T> reading, String option, List<String> faults) {
    try {
      return reading.get();
    } catch (IllegalArgumentException e) {
      faults.add(option + ": " + e.getMessage());
      return null;
    }
  }
}
