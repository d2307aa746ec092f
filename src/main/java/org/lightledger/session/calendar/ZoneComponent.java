package org.lightledger.session.calendar;

import biweekly.component.DaylightSavingsTime;
import biweekly.component.Observance;
import biweekly.component.StandardTime;
import biweekly.component.VTimezone;
import biweekly.property.DateStart;
import biweekly.util.DateTimeComponents;
import biweekly.util.DayOfWeek;
import biweekly.util.Frequency;
import biweekly.util.ICalDate;
import biweekly.util.Recurrence;
import biweekly.util.UtcOffset;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.Month;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.zone.ZoneOffsetTransition;
import java.time.zone.ZoneOffsetTransitionRule;
import java.time.zone.ZoneRules;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.outgoing.Agenda;

/**
 * The zone of an agenda as a calendar file carries it. Where the clocks change by a rule, the file
 * has the rule, because some calendars understand nothing else; where a government decides anew
 * each year, it has each change around the entries by itself.
 */
final class ZoneComponent {
  /** So far around the entries the changes are told: own choice, more than a year's cycle. */
  private static final Duration AROUND = Duration.ofDays(400);

  private static final LocalDateTime LONG_AGO = LocalDateTime.of(1970, 1, 1, 0, 0);
  private static final DateTimeFormatter NAME = DateTimeFormatter.ofPattern("zzz", Locale.ENGLISH);
  private static final int DAYS_OF_WEEK = 7;

  private final ZoneId zone;
  private final ZoneRules rules;
  private final VTimezone component;

  private ZoneComponent(ZoneId zone) {
    this.zone = zone;
    this.rules = zone.getRules();
    this.component = new VTimezone(zone.getId());
  }

  static VTimezone of(Agenda agenda) {
    ZoneComponent made = new ZoneComponent(agenda.zone());
    List<Instant> starts =
        Stream.concat(agenda.entries().stream(), agenda.takenBack().stream())
            .map(entry -> start(entry.time(), agenda.zone()))
            .sorted()
            .toList();
    Instant first = starts.isEmpty() ? Instant.EPOCH : starts.get(0);
    Instant last = starts.isEmpty() ? first : starts.get(starts.size() - 1);
    made.fill(first.minus(AROUND), last.plus(AROUND));
    return made.component;
  }

  private static Instant start(Agenda.Time time, ZoneId zone) {
    if (time instanceof Agenda.Span span) {
      return span.from();
    }
    return ((Agenda.WholeDay) time).date().atStartOfDay(zone).toInstant();
  }

  private void fill(Instant from, Instant to) {
    ZoneOffsetTransition change = rules.previousTransition(from);
    if (change == null) {
      add(LONG_AGO, rules.getOffset(from), from, null);
      change = rules.nextTransition(from);
    }
    if (change != null && byRule(change, to)) {
      int year = change.getDateTimeBefore().getYear();
      for (ZoneOffsetTransitionRule rule : rules.getTransitionRules()) {
        add(rule.createTransition(year), recurrence(rule));
      }
      return;
    }
    while (change != null && change.getInstant().isBefore(to)) {
      add(change, null);
      change = rules.nextTransition(change.getInstant());
    }
  }

  /** Whether all changes of those years are by rules that a calendar file can tell. */
  private boolean byRule(ZoneOffsetTransition first, Instant to) {
    List<ZoneOffsetTransitionRule> yearly = rules.getTransitionRules();
    if (yearly.size() != 2
        || yearly.stream().anyMatch(ZoneOffsetTransitionRule::isMidnightEndOfDay)
        || yearly.stream().anyMatch(rule -> rule.getDayOfWeek() == null)
        || yearly.stream().anyMatch(rule -> rule.getMonth() == Month.FEBRUARY)
        || yearly.stream().anyMatch(rule -> rule.getDayOfMonthIndicator() < -1)
        || yearly.stream().anyMatch(ZoneComponent::runsIntoTheNextMonth)) {
      return false;
    }
    int lastYear = to.atZone(zone).getYear();
    for (int year = first.getDateTimeBefore().getYear(); year <= lastYear; year++) {
      for (ZoneOffsetTransitionRule rule : yearly) {
        ZoneOffsetTransition change = rule.createTransition(year);
        if (!change.equals(rules.nextTransition(change.getInstant().minusSeconds(1)))
            || !isOnItsDay(change, rule)) {
          return false;
        }
      }
    }
    return true;
  }

  /** Such as the Friday on or after 26 October, which can be the first of November. */
  private static boolean runsIntoTheNextMonth(ZoneOffsetTransitionRule rule) {
    return rule.getDayOfMonthIndicator() + DAYS_OF_WEEK - 1 > rule.getMonth().minLength();
  }

  /**
   * Whether the clocks there show the day that the rule names. A rule in another time than theirs
   * can fall on the day before: at one in Greenwich it is still Saturday in Greenland.
   */
  private static boolean isOnItsDay(ZoneOffsetTransition change, ZoneOffsetTransitionRule rule) {
    LocalDateTime onset = change.getDateTimeBefore();
    return onset.getDayOfWeek() == rule.getDayOfWeek() && onset.getMonth() == rule.getMonth();
  }

  private static Recurrence recurrence(ZoneOffsetTransitionRule rule) {
    DayOfWeek day = DayOfWeek.values()[rule.getDayOfWeek().getValue() % DAYS_OF_WEEK];
    Recurrence.Builder yearly =
        new Recurrence.Builder(Frequency.YEARLY).byMonth(rule.getMonth().getValue());
    int from = rule.getDayOfMonthIndicator();
    if (from == -1 || from == rule.getMonth().minLength() - DAYS_OF_WEEK + 1) {
      return yearly.byDay(-1, day).build();
    }
    if (from % DAYS_OF_WEEK == 1) {
      return yearly.byDay(from / DAYS_OF_WEEK + 1, day).build();
    }
    for (int date = from; date < from + DAYS_OF_WEEK; date++) {
      yearly.byMonthDay(date);
    }
    return yearly.byDay(day).build();
  }

  private void add(ZoneOffsetTransition change, @Nullable Recurrence yearly) {
    add(change.getDateTimeBefore(), change.getOffsetBefore(), change.getInstant(), yearly);
  }

  /** What holds from an instant on; its onset is told on the clocks before it. */
  private void add(
      LocalDateTime onset, ZoneOffset before, Instant at, @Nullable Recurrence yearly) {
    boolean daylight = rules.isDaylightSavings(at);
    Observance observance = daylight ? new DaylightSavingsTime() : new StandardTime();
    observance.setDateStart(
        new DateStart(
            new ICalDate(
                new DateTimeComponents(
                    onset.getYear(),
                    onset.getMonthValue(),
                    onset.getDayOfMonth(),
                    onset.getHour(),
                    onset.getMinute(),
                    onset.getSecond(),
                    false),
                true)));
    observance.setTimezoneOffsetFrom(offset(before));
    observance.setTimezoneOffsetTo(offset(rules.getOffset(at)));
    observance.addTimezoneName(NAME.format(at.atZone(zone)));
    if (yearly != null) {
      observance.setRecurrenceRule(yearly);
    }
    if (daylight) {
      component.addDaylightSavingsTime((DaylightSavingsTime) observance);
    } else {
      component.addStandardTime((StandardTime) observance);
    }
  }

  private static UtcOffset offset(ZoneOffset offset) {
    return new UtcOffset(offset.getTotalSeconds() * 1000L);
  }
}
