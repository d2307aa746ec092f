package org.lightledger.session.calendar;

import biweekly.component.DaylightSavingsTime;
import biweekly.component.Observance;
import biweekly.component.StandardTime;
import biweekly.component.VTimezone;
import biweekly.property.DateStart;
import biweekly.util.DateTimeComponents;
import biweekly.util.ICalDate;
import biweekly.util.UtcOffset;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.zone.ZoneOffsetTransition;
import java.time.zone.ZoneRules;
import java.util.Locale;
import org.lightledger.session.outgoing.Agenda;

/**
 * The zone of an agenda as a calendar file carries it. Each change of the clocks around the entries
 * stands there by itself, as the zone's rules of that year have it, and no rule of recurrence: so
 * it is right also where a government decides anew each year.
 */
final class ZoneComponent {
  /** So far around the entries the changes are told: own choice, more than a year's cycle. */
  private static final Duration AROUND = Duration.ofDays(400);

  private static final LocalDateTime LONG_AGO = LocalDateTime.of(1970, 1, 1, 0, 0);
  private static final DateTimeFormatter NAME = DateTimeFormatter.ofPattern("zzz", Locale.ENGLISH);

  private ZoneComponent() {}

  static VTimezone of(Agenda agenda) {
    ZoneId zone = agenda.zone();
    Instant first = null;
    Instant last = null;
    for (Agenda.Entry entry : agenda.entries()) {
      Instant from = start(entry.time(), zone);
      first = first == null || from.isBefore(first) ? from : first;
      last = last == null || from.isAfter(last) ? from : last;
    }
    VTimezone component = new VTimezone(zone.getId());
    if (first == null || last == null) {
      add(component, zone, LONG_AGO, zone.getRules().getOffset(Instant.EPOCH), Instant.EPOCH);
      return component;
    }
    ZoneRules rules = zone.getRules();
    Instant from = first.minus(AROUND);
    ZoneOffsetTransition change = rules.previousTransition(from);
    if (change == null) {
      add(component, zone, LONG_AGO, rules.getOffset(from), from);
      change = rules.nextTransition(from);
    }
    while (change != null && change.getInstant().isBefore(last.plus(AROUND))) {
      add(
          component,
          zone,
          change.getDateTimeBefore(),
          change.getOffsetBefore(),
          change.getInstant());
      change = rules.nextTransition(change.getInstant());
    }
    return component;
  }

  private static Instant start(Agenda.Time time, ZoneId zone) {
    if (time instanceof Agenda.Span span) {
      return span.from();
    }
    return ((Agenda.WholeDay) time).date().atStartOfDay(zone).toInstant();
  }

  /** What holds from an instant on; its onset is told on the clocks before it. */
  private static void add(
      VTimezone component, ZoneId zone, LocalDateTime onset, ZoneOffset before, Instant at) {
    ZoneRules rules = zone.getRules();
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
