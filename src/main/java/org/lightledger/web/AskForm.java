package org.lightledger.web;

import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Question;
import org.lightledger.ask.Terms;
import org.lightledger.ask.TimeOfDay;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;

/**
 * The question as it stands in the form and in the address of the page.
 *
 * @param lights the light classes wanted
 * @param first first day
 * @param last last day
 * @param time the hour
 * @param near the middle of the circle, or null for the whole stock
 * @param withinKm its radius, kilometres
 * @param driveMinutes how long the drive from its middle may take, minutes, or null for any
 * @param terms what else is asked for
 */
record AskForm(
    Set<LightClass> lights,
    LocalDate first,
    LocalDate last,
    TimeOfDay time,
    @Nullable GeoPoint near,
    double withinKm,
    @Nullable Integer driveMinutes,
    Terms terms) {
  private static final Set<String> FIELDS = Set.of("light", "from", "when", "near");
  private static final int DEFAULT_MINUTES = 60;
  private static final double DEFAULT_KM = 10;
  private static final double MOST_MINUTES = 720;
  private static final double MOST_KM = 2000;

  /** A longer drive is a journey: own choice. */
  private static final int MOST_DRIVE = 240;

  /**
   * What was read.
   *
   * @param form the question; a field that was bad holds what a fresh page holds
   * @param byClock whether the hour is given by the clock, also when it could not be read
   * @param at the first clock time as it was typed
   * @param until the last one
   * @param near the place as it was typed
   * @param inside the corners of the shape as they were typed
   * @param problems what was wrong; a question is asked only when this is empty
   */
  record Read(
      AskForm form,
      boolean byClock,
      String at,
      String until,
      String near,
      String inside,
      List<FieldProblem> problems) {}

  /** The question of a fresh page: backlit, an hour before sunset, through the next month. */
  static AskForm fresh(LocalDate today) {
    YearMonth next = YearMonth.from(today).plusMonths(1);
    return new AskForm(
        EnumSet.of(LightClass.BACKLIT),
        next.atDay(1),
        next.atEndOfMonth(),
        new TimeOfDay.FromSun(TimeOfDay.Anchor.SUNSET, Duration.ofMinutes(-DEFAULT_MINUTES)),
        null,
        DEFAULT_KM,
        null,
        Terms.NONE);
  }

  /** Reads the address. An address without a question means the fresh question. */
  static Read read(Map<String, List<String>> query, LocalDate today) {
    AskForm fresh = fresh(today);
    boolean asked =
        query.keySet().stream().anyMatch(FIELDS::contains)
            || query.keySet().stream().anyMatch(AskTerms.FIELDS::contains);
    if (!asked) {
      return new Read(fresh, false, "", "", "", "", List.of());
    }
    Function<String, List<String>> source = name -> query.getOrDefault(name, List.of());
    Fields fields = new Fields(source);
    Set<LightClass> lights = lights(fields);
    LocalDate first = fields.day("from", "First day");
    LocalDate last = fields.day("to", "Last day");
    LocalDate from = first != null ? first : last != null ? last : fresh.first();
    LocalDate to = last != null ? last : first != null ? first : fresh.last();
    checkDays(fields, from, to);
    TimeOfDay time = time(fields, fresh.time());
    GeoPoint near = fields.place("near", "Around");
    Double within = fields.number("within", "Within", 0.05, MOST_KM, " kilometres");
    double withinKm = within == null ? DEFAULT_KM : within;
    Integer drive = fields.whole("drive", "By car within", 1, MOST_DRIVE, "minutes");
    if (drive != null && near == null && fields.raw("near").isEmpty()) {
      fields.problem("near", "Around", "expected the place where the drive starts, found nothing");
    }
    Terms terms = AskTerms.read(fields);
    return new Read(
        new AskForm(lights, from, to, time, near, withinKm, drive, terms),
        byClock(fields),
        fields.raw("at"),
        fields.raw("until"),
        fields.raw("near"),
        fields.raw("inside"),
        fields.problems());
  }

  private static Set<LightClass> lights(Fields fields) {
    Set<LightClass> lights = EnumSet.noneOf(LightClass.class);
    for (String code : fields.all("light")) {
      LightClass light = fields.light("light", "Light", code);
      if (light != null) {
        lights.add(light);
      }
    }
    if (fields.all("light").isEmpty()) {
      fields.problem("light", "Light", "expected at least one light, found none; pick one above");
    }
    return lights;
  }

  private static void checkDays(Fields fields, LocalDate from, LocalDate to) {
    if (to.isBefore(from)) {
      fields.problem(
          "to",
          "Last day",
          "expected a day on or after " + Words.shortDay(from) + ", found " + Words.shortDay(to));
    } else if (from.plusDays(Question.MOST_DAYS - 1L).isBefore(to)) {
      fields.problem(
          "to", "Last day", "expected at most " + Question.MOST_DAYS + " days in all, found more");
    }
    for (LocalDate day : List.of(from, to)) {
      if (day.getYear() < 1900 || day.getYear() > 2200) {
        fields.problem(
            "from", "First day", "expected a year from 1900 to 2200, found " + day.getYear());
      }
    }
  }

  private static boolean byClock(Fields fields) {
    return fields.raw("when").equals("clock");
  }

  private static TimeOfDay time(Fields fields, TimeOfDay otherwise) {
    if (!byClock(fields)) {
      return fromSun(fields);
    }
    LocalTime from = fields.clock("at", "Time from");
    LocalTime until = fields.clock("until", "Until");
    if (from == null) {
      if (fields.problems().stream().noneMatch(problem -> problem.field().equals("at"))) {
        fields.problem("at", "Time from", "expected a time such as 17:30, found nothing");
      }
      return otherwise;
    }
    LocalTime end = until == null ? from : until;
    if (end.isBefore(from)) {
      fields.problem(
          "until",
          "Until",
          "expected a time after "
              + Words.hour(from)
              + " on the same day, found "
              + Words.hour(end));
      return otherwise;
    }
    return new TimeOfDay.Clock(from, end);
  }

  private static TimeOfDay fromSun(Fields fields) {
    Double minutes = fields.number("minutes", "Minutes", 0, MOST_MINUTES, " minutes");
    long length = Math.round(minutes == null ? DEFAULT_MINUTES : minutes);
    boolean after = fields.raw("side").equals("after");
    TimeOfDay.Anchor anchor =
        fields.raw("event").equals("sunrise") ? TimeOfDay.Anchor.SUNRISE : TimeOfDay.Anchor.SUNSET;
    return new TimeOfDay.FromSun(anchor, Duration.ofMinutes(after ? length : -length));
  }

  Question question() {
    return new Question(
        lights,
        first,
        last,
        time,
        near == null ? null : new Question.Near(near, withinKm * 1000),
        terms);
  }

  AskForm withDays(LocalDate from, LocalDate to) {
    return new AskForm(lights, from, to, time, near, withinKm, driveMinutes, terms);
  }

  AskForm withoutCircle() {
    return new AskForm(lights, first, last, time, null, DEFAULT_KM, null, terms);
  }

  /** The address of the page that asks this question. */
  String href() {
    List<String> parts = new ArrayList<>();
    for (LightClass light : LightClass.values()) {
      if (lights.contains(light)) {
        parts.add("light=" + light.code());
      }
    }
    parts.add("from=" + first);
    parts.add("to=" + last);
    if (time instanceof TimeOfDay.Clock clock) {
      parts.add("when=clock");
      parts.add("at=" + Words.hour(clock.from()));
      parts.add("until=" + Words.hour(clock.to()));
    } else if (time instanceof TimeOfDay.FromSun sun) {
      parts.add("when=sun");
      parts.add("minutes=" + sun.offset().abs().toMinutes());
      parts.add("side=" + (sun.offset().isNegative() ? "before" : "after"));
      parts.add("event=" + sun.anchor().name().toLowerCase(Locale.ROOT));
    }
    if (near != null) {
      parts.add("near=" + near.toText());
    }
    parts.add("within=" + Words.plain(withinKm));
    if (driveMinutes != null) {
      parts.add("drive=" + driveMinutes);
    }
    parts.addAll(AskTerms.address(terms));
    return "/?" + String.join("&", parts);
  }

  /** The hour in words. */
  String hourWords() {
    if (time instanceof TimeOfDay.Clock clock) {
      return clock.from().equals(clock.to())
          ? "at " + Words.hour(clock.from())
          : "between " + Words.hour(clock.from()) + " and " + Words.hour(clock.to());
    }
    TimeOfDay.FromSun sun = (TimeOfDay.FromSun) time;
    String event = sun.anchor() == TimeOfDay.Anchor.SUNRISE ? "sunrise" : "sunset";
    return sun.offset().isZero()
        ? "at " + event
        : sun.offset().abs().toMinutes()
            + " min "
            + (sun.offset().isNegative() ? "before " : "after ")
            + event;
  }

  /** The light classes in words. */
  String lightWords() {
    List<String> labels = new ArrayList<>();
    for (LightClass light : LightClass.values()) {
      if (lights.contains(light)) {
        labels.add(Words.lit(light));
      }
    }
    return AskTerms.joined(labels, "or");
  }
}
