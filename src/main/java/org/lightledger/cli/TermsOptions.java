package org.lightledger.cli;

import java.time.DayOfWeek;
import java.time.Duration;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Shape;
import org.lightledger.ask.Sky;
import org.lightledger.ask.Terms;
import org.lightledger.spot.Trait;
import picocli.CommandLine.Option;

/** The options for what else a question asks for. */
final class TermsOptions {
  @Option(
      names = "--sky",
      paramLabel = "clear|overcast",
      description = "What the sky is like; clear if not given.")
  private @Nullable String sky;

  @Option(
      names = "--sun",
      paramLabel = "direct|shade",
      description = "Only where the sun is known to reach the spot, or known not to.")
  private @Nullable String sun;

  @Option(
      names = "--weekdays",
      split = ",",
      paramLabel = "DAY[,DAY]",
      description = "Only on these days of the week, such as saturday,sunday.")
  private @Nullable List<String> weekdays;

  @Option(
      names = "--at-least",
      paramLabel = "MINUTES",
      description = "Only where the light lasts so long.")
  private @Nullable Long minutes;

  @Option(
      names = "--with",
      split = ",",
      paramLabel = "TRAIT[,TRAIT]",
      description =
          "Only spots that are or have all of: woods, town, water, open-field, indoors, covered,"
              + " parking, level-access, place-to-change, no-permit.")
  private @Nullable List<String> traits;

  @Option(
      names = "--inside",
      paramLabel = "LAT,LON;LAT,LON;…",
      description = "Only spots inside the shape of these corners.")
  private @Nullable String shape;

  /** No terms. */
  static TermsOptions none() {
    return new TermsOptions();
  }

  /** The terms; what is wrong with them is added to the faults, and then they mean nothing. */
  Terms terms(List<String> faults) {
    Sky wantedSky = QuestionOptions.read(this::sky, "--sky", faults);
    Terms.SunWanted wantedSun = QuestionOptions.read(this::sun, "--sun", faults);
    Set<DayOfWeek> days = QuestionOptions.read(() -> weekdays(weekdays), "--weekdays", faults);
    Set<Trait> wantedTraits = QuestionOptions.read(this::traits, "--with", faults);
    Shape inside = QuestionOptions.read(this::shape, "--inside", faults);
    if (wantedSky == null || wantedSun == null || days == null || wantedTraits == null) {
      return Terms.NONE;
    }
    Long wantedMinutes = minutes;
    Duration atLeast = Duration.ofMinutes(wantedMinutes == null ? 0 : wantedMinutes);
    Terms terms =
        QuestionOptions.read(
            () -> new Terms(wantedSky, wantedSun, days, atLeast, wantedTraits, inside),
            "--at-least",
            faults);
    return terms == null ? Terms.NONE : terms;
  }

  private Sky sky() {
    String text = sky == null ? "clear" : sky.strip().toLowerCase(Locale.ROOT);
    return switch (text) {
      case "clear" -> Sky.CLEAR;
      case "overcast" -> Sky.OVERCAST;
      default ->
          throw new IllegalArgumentException("expected clear or overcast, found \"" + sky + "\"");
    };
  }

  private Terms.SunWanted sun() {
    String text = sun == null ? "" : sun.strip().toLowerCase(Locale.ROOT);
    return switch (text) {
      case "" -> Terms.SunWanted.EITHER;
      case "direct" -> Terms.SunWanted.DIRECT;
      case "shade" -> Terms.SunWanted.SHADE;
      default ->
          throw new IllegalArgumentException("expected direct or shade, found \"" + sun + "\"");
    };
  }

  /** Days of the week by their English names; all of them when none is named. */
  static Set<DayOfWeek> weekdays(@Nullable List<String> names) {
    if (names == null) {
      return EnumSet.allOf(DayOfWeek.class);
    }
    Set<DayOfWeek> days = EnumSet.noneOf(DayOfWeek.class);
    for (String name : names) {
      try {
        days.add(DayOfWeek.valueOf(name.strip().toUpperCase(Locale.ROOT)));
      } catch (IllegalArgumentException e) {
        throw new IllegalArgumentException(
            "expected days such as saturday,sunday, found \"" + name + "\"", e);
      }
    }
    return days;
  }

  private Set<Trait> traits() {
    Set<Trait> wanted = EnumSet.noneOf(Trait.class);
    List<String> codes = traits;
    if (codes != null) {
      codes.forEach(code -> wanted.add(Trait.parse(code)));
    }
    return wanted;
  }

  private @Nullable Shape shape() {
    String text = shape;
    return text == null ? null : Shape.parse(text);
  }
}
