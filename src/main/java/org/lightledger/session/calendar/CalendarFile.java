package org.lightledger.session.calendar;

import biweekly.ICalVersion;
import biweekly.ICalendar;
import biweekly.component.VAlarm;
import biweekly.component.VEvent;
import biweekly.io.TimezoneAssignment;
import biweekly.io.text.ICalWriter;
import biweekly.parameter.Related;
import biweekly.property.DateEnd;
import biweekly.property.DateStart;
import biweekly.property.Geo;
import biweekly.property.Status;
import biweekly.property.Transparency;
import biweekly.property.Trigger;
import biweekly.util.DateTimeComponents;
import biweekly.util.Duration;
import biweekly.util.ICalDate;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Date;
import java.util.TimeZone;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.outgoing.Agenda;

/** Writes an agenda as a calendar file (RFC 5545). */
public final class CalendarFile {
  private static final String PRODUCT = "-//Lightledger//Session//EN";

  private CalendarFile() {}

  /**
   * Writes the file.
   *
   * @param agenda what it shows
   * @param now the present, which it is stamped with
   * @return the content, lines ended by CR LF and none longer than 75 octets
   */
  public static String text(Agenda agenda, Instant now) {
    ICalendar calendar = new ICalendar();
    calendar.setProductId(PRODUCT);
    calendar
        .getTimezoneInfo()
        .setDefaultTimezone(
            new TimezoneAssignment(TimeZone.getTimeZone(agenda.zone()), ZoneComponent.of(agenda)));
    for (Agenda.Entry entry : agenda.entries()) {
      calendar.addEvent(event(agenda, entry, agenda.cancelled(), now));
    }
    for (Agenda.Entry entry : agenda.takenBack()) {
      calendar.addEvent(event(agenda, entry, true, now));
    }
    StringWriter written = new StringWriter();
    try (ICalWriter writer = new ICalWriter(written, ICalVersion.V2_0)) {
      writer.getVObjectWriter().getFoldedLineWriter().setLineLength(null);
      writer.write(calendar);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return Folding.fold(written.toString());
  }

  private static VEvent event(Agenda agenda, Agenda.Entry entry, boolean cancelled, Instant now) {
    VEvent event = new VEvent();
    event.setUid(entry.uid());
    event.setDateTimeStamp(Date.from(now));
    event.setSequence(agenda.revision());
    event.setSummary(entry.title());
    if (!entry.words().isEmpty()) {
      event.setDescription(entry.words());
    }
    Agenda.Place place = entry.place();
    if (place != null) {
      event.setLocation(place.words());
      event.setGeo(new Geo(place.point().latitudeDeg(), place.point().longitudeDeg()));
    }
    event.setStatus(cancelled ? Status.cancelled() : Status.confirmed());
    event.setTransparency(
        entry.busy() && !cancelled ? Transparency.opaque() : Transparency.transparent());
    time(event, entry.time());
    java.time.@Nullable Duration before = entry.alarm();
    if (before != null && !cancelled) {
      event.addAlarm(alarm(before, entry.title()));
    }
    return event;
  }

  private static void time(VEvent event, Agenda.Time time) {
    if (time instanceof Agenda.Span span) {
      event.setDateStart(new DateStart(Date.from(span.from()), true));
      event.setDateEnd(new DateEnd(Date.from(span.to()), true));
    } else if (time instanceof Agenda.WholeDay day) {
      event.setDateStart(new DateStart(date(day.date())));
      event.setDateEnd(new DateEnd(date(day.date().plusDays(1))));
    }
  }

  private static ICalDate date(LocalDate date) {
    return new ICalDate(
        new DateTimeComponents(date.getYear(), date.getMonthValue(), date.getDayOfMonth()), false);
  }

  private static VAlarm alarm(java.time.Duration before, String words) {
    Duration trigger =
        Duration.builder()
            .prior(!before.isZero())
            .minutes(Math.toIntExact(before.toMinutes()))
            .build();
    return VAlarm.display(new Trigger(trigger, Related.START), words);
  }
}
