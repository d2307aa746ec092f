package org.lightledger.ask;

import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.lightledger.light.LightClass;

/** Says why no spot has the light that was asked for, and what to ask instead. */
public final class WhyNone {
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("EEE d MMM yyyy", Locale.ENGLISH);

  private WhyNone() {}

  /**
   * What to say of a question whose spots were looked at in vain.
   *
   * @param answers answers without a match
   * @return sentences, the reason first
   */
  public static List<String> of(Answers answers) {
    Question question = answers.question();
    int count = answers.considered();
    String looked = count + (count == 1 ? " spot was" : " spots were") + " looked at. ";
    if (!answers.hoursExist()) {
      return List.of(looked + noSuchHour(question.time()), "Ask for another hour or another day.");
    }
    SunDown down = answers.sunDown();
    if (down != null) {
      return List.of(
          looked + "At this hour the sun is below the horizon: " + when(down), advice(down));
    }
    if (question.terms().sky() == Sky.OVERCAST && !isThereUnderClouds(question)) {
      return List.of(
          looked + "Under an overcast sky the light by day is open shade: ask for that.");
    }
    List<String> words = new ArrayList<>();
    words.add(looked + "At this hour the sun stands elsewhere, as seen along their facings.");
    if (!question.terms().equals(Terms.NONE)) {
      words.add("Ask for less: what is not known of a spot counts as a no.");
    }
    if (Stream.of(LightClass.BACKLIT, LightClass.RIM, LightClass.SIDE)
        .anyMatch(question.lights()::contains)) {
      words.add("Pick a neighbouring light too: rim beside backlit, side beside rim.");
    }
    words.add("Try another hour: the sun moves about 15° in an hour.");
    return words;
  }

  private static String noSuchHour(TimeOfDay time) {
    if (time instanceof TimeOfDay.FromSun fromSun) {
      return fromSun.anchor() == TimeOfDay.Anchor.SUNRISE
          ? "The sun does not rise there then."
          : "The sun does not set there then.";
    }
    return "This hour does not exist there then: the clocks skip it when they are changed.";
  }

  private static boolean isThereUnderClouds(Question question) {
    return Stream.of(LightClass.OPEN_SHADE, LightClass.TWILIGHT, LightClass.DARK)
        .anyMatch(question.lights()::contains);
  }

  private static String when(SunDown down) {
    OffsetDateTime set = down.set();
    OffsetDateTime rises = down.rises();
    String event =
        set != null
            ? "it set at " + HOUR.format(set)
            : rises != null ? "it rises at " + HOUR.format(rises) : "it does not rise";
    return "at " + down.spot().name() + " " + event + " on " + DAY.format(down.at()) + ".";
  }

  private static String advice(SunDown down) {
    String other =
        down.set() != null
            ? "an hour before sunset"
            : down.rises() != null ? "an hour after sunrise" : "another day";
    return "Ask for " + other + ", or for twilight or dark.";
  }
}
