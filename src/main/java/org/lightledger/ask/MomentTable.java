package org.lightledger.ask;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.lightledger.geo.GeoPoint;
import org.lightledger.sun.SunDay;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.sun.SunEventKind;

/**
 * The moments that a question asks about, with the sun for each. A clock time is the same instant
 * for all spots of a zone, so the sun is computed once per zone and not once per spot.
 */
final class MomentTable {
  private final Question question;
  private final SunEphemeris sun;
  private final Map<ZoneId, List<DayMoments>> byZone = new ConcurrentHashMap<>();

  MomentTable(Question question, SunEphemeris sun) {
    this.question = question;
    this.sun = sun;
  }

  List<DayMoments> of(GeoPoint place, ZoneId zone) {
    if (question.time() instanceof TimeOfDay.Clock clock) {
      return byZone.computeIfAbsent(zone, z -> clockMoments(clock, z));
    }
    return sunMoments((TimeOfDay.FromSun) question.time(), place, zone);
  }

  private List<DayMoments> sunMoments(TimeOfDay.FromSun time, GeoPoint place, ZoneId zone) {
    SunEventKind kind =
        switch (time.anchor()) {
          case SUNRISE -> SunEventKind.SUNRISE;
          case SUNSET -> SunEventKind.SUNSET;
        };
    List<DayMoments> days = new ArrayList<>();
    for (LocalDate day = question.firstDay();
        !day.isAfter(question.lastDay());
        day = day.plusDays(1)) {
      if (!question.terms().weekdays().contains(day.getDayOfWeek())) {
        continue;
      }
      List<Instant> instants =
          SunDay.of(sun, place, zone, day).events(kind).stream()
              .map(event -> event.at().plus(time.offset()))
              .toList();
      days.add(new DayMoments(day, withSun(instants)));
    }
    return days;
  }

  private List<DayMoments> clockMoments(TimeOfDay.Clock clock, ZoneId zone) {
    List<DayMoments> days = new ArrayList<>();
    for (LocalDate day = question.firstDay();
        !day.isAfter(question.lastDay());
        day = day.plusDays(1)) {
      if (!question.terms().weekdays().contains(day.getDayOfWeek())) {
        continue;
      }
      days.add(new DayMoments(day, withSun(Moments.of(clock, day, zone))));
    }
    return days;
  }

  private List<DayMoments.Moment> withSun(List<Instant> instants) {
    return instants.stream()
        .map(instant -> new DayMoments.Moment(instant, sun.at(instant)))
        .toList();
  }
}
