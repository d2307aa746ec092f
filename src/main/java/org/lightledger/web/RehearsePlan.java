package org.lightledger.web;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Question;
import org.lightledger.ask.Rehearsal;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/** When to scout for a planned moment. */
final class RehearsePlan {
  /** So many moments are shown: own choice. */
  private static final int MOST_ROWS = 10;

  private static final LocalTime LAST_MINUTE = LocalTime.of(23, 59);

  private final SunEphemeris sun;

  RehearsePlan(SunEphemeris sun) {
    this.sun = sun;
  }

  private record Found(String planned, String mirror, List<PlansView.Earlier> rows, String said) {
    static final Found NOTHING = new Found("", "", List.of(), "");
  }

  PlansView.Rehearse view(Fields fields, SpotPlans.Place place) {
    boolean used = !fields.raw("plan-day").isEmpty() || !fields.raw("plan-at").isEmpty();
    Set<DayOfWeek> weekdays = AskTerms.weekdays(fields, "plan-weekday", "Free days");
    Found found = used ? found(fields, place, weekdays) : Found.NOTHING;
    return new PlansView.Rehearse(
        used,
        fields.raw("plan-day"),
        fields.raw("plan-at"),
        AskTerms.weekdayChoices(weekdays),
        fields.raw("plan-after"),
        fields.raw("plan-before"),
        found.planned(),
        found.mirror(),
        found.rows(),
        found.said());
  }

  private Found found(Fields fields, SpotPlans.Place place, Set<DayOfWeek> weekdays) {
    int before = fields.problems().size();
    LocalDate day = day(fields, place.today());
    LocalTime at = fields.clock("plan-at", "Planned hour");
    if (at == null && fields.raw("plan-at").isEmpty()) {
      fields.problem("plan-at", "Planned hour", "expected a time such as 17:30, found nothing");
    }
    LocalTime earliest = fields.clock("plan-after", "Free from");
    LocalTime latest = fields.clock("plan-before", "Free until");
    LocalTime from = earliest == null ? LocalTime.MIN : earliest;
    LocalTime to = latest == null ? LAST_MINUTE : latest;
    if (to.isBefore(from)) {
      fields.problem(
          "plan-before",
          "Free until",
          "expected a time after " + Words.hour(from) + ", found " + Words.hour(to));
    }
    Instant planned = day == null || at == null ? null : instant(fields, place, day.atTime(at));
    if (planned == null || day == null || fields.problems().size() > before) {
      return Found.NOTHING;
    }
    Rehearsal rehearsal = new Rehearsal(sun);
    SunDirection then = sun.direction(planned, place.spot().position());
    List<PlansView.Earlier> rows =
        rehearsal
            .moments(
                new Rehearsal.Plan(place.spot().position(), place.zone(), place.skyline(), planned),
                new Rehearsal.Free(place.today(), day, weekdays, from, to),
                place.now())
            .stream()
            .limit(MOST_ROWS)
            .map(moment -> row(moment, place))
            .toList();
    return new Found(
        Words.moment(planned.atZone(place.zone()).toOffsetDateTime())
            + ": sun "
            + Words.sun(then)
            + ", "
            + SunWords.of(place.skyline(), then).word()
            + ".",
        mirror(rehearsal, day, place.today()),
        rows,
        rows.isEmpty()
            ? "No earlier moment in your free hours has such a sun. Take more days of the week or"
                + " longer hours; for a planned hour after civil twilight there is no sun to"
                + " rehearse."
            : "");
  }

  private static @Nullable LocalDate day(Fields fields, LocalDate today) {
    LocalDate day = fields.day("plan-day", "Planned day");
    if (day == null) {
      if (fields.raw("plan-day").isEmpty()) {
        fields.problem("plan-day", "Planned day", "expected a day to come, found nothing");
      }
      return null;
    }
    if (day.isBefore(today) || day.isAfter(today.plusDays(Question.MOST_DAYS))) {
      fields.problem(
          "plan-day",
          "Planned day",
          "expected a day from today to "
              + Words.shortDay(today.plusDays(Question.MOST_DAYS))
              + ", found "
              + Words.shortDay(day));
      return null;
    }
    return day;
  }

  private static @Nullable Instant instant(
      Fields fields, SpotPlans.Place place, LocalDateTime local) {
    List<ZoneOffset> offsets = place.zone().getRules().getValidOffsets(local);
    if (offsets.isEmpty()) {
      fields.problem(
          "plan-at",
          "Planned hour",
          "expected a time that the clocks of "
              + place.zone().getId()
              + " show on that day, found "
              + Words.hour(local.toLocalTime()));
      return null;
    }
    return local.toInstant(offsets.get(0));
  }

  private static String mirror(Rehearsal rehearsal, LocalDate day, LocalDate today) {
    return rehearsal
        .mirrorDay(day)
        .map(
            mirror ->
                "Its mirror day, with the same sun path on the other side of the solstice, "
                    + (mirror.isBefore(today) ? "was " : "is ")
                    + Words.day(mirror)
                    + ".")
        .orElse("Near the solstice the days just before have nearly the same sun path.");
  }

  private static PlansView.Earlier row(Rehearsal.Moment moment, SpotPlans.Place place) {
    SunWords words = SunWords.of(place.skyline(), moment.sun());
    return new PlansView.Earlier(
        Words.moment(moment.at()),
        Words.fineDegrees(moment.sunGapDeg()),
        Rehearsal.difference(moment),
        words.kind(),
        Words.capital(words.word()),
        "/spots/"
            + place.spot().id()
            + "?day="
            + moment.at().toLocalDate()
            + "&at="
            + Words.hour(moment.at())
            + "#sun-head");
  }
}
