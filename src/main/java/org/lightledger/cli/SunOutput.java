package org.lightledger.cli;

import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.sun.SunDay;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEvent;
import org.lightledger.sun.SunEventKind;

/** Writes the sun's place and a day's events for machines and for people. */
final class SunOutput {
  private SunOutput() {}

  static Map<String, @Nullable Object> json(SunDirection sun) {
    return Json.fields()
        .put("azimuthDeg", Json.angle(sun.azimuth().trueDeg()))
        .put("apparentAltitudeDeg", Json.angle(sun.apparentAltitudeDeg()))
        .put("geometricAltitudeDeg", Json.angle(sun.geometricAltitudeDeg()))
        .map();
  }

  static String text(SunDirection sun) {
    return String.format(
        Locale.ROOT,
        "azimuth %.4f° (%s), apparent altitude %.4f°, geometric altitude %.4f°%n",
        sun.azimuth().trueDeg(),
        sun.azimuth().compassPoint(),
        sun.apparentAltitudeDeg(),
        sun.geometricAltitudeDeg());
  }

  static Map<String, @Nullable Object> json(SunDay day) {
    List<Map<String, @Nullable Object>> events = new ArrayList<>();
    for (SunEvent event : day.events()) {
      events.add(
          Json.fields()
              .put("name", event.kind().label())
              .put("at", Json.time(local(day, event)))
              .put("azimuthDeg", Json.angle(event.direction().azimuth().trueDeg()))
              .put("apparentAltitudeDeg", Json.angle(event.direction().apparentAltitudeDeg()))
              .map());
    }
    List<Map<String, @Nullable Object>> absent = new ArrayList<>();
    for (SunEventKind kind : SunEventKind.values()) {
      day.absence(kind)
          .ifPresent(
              reason ->
                  absent.add(Json.fields().put("name", kind.label()).put("reason", reason).map()));
    }
    return Json.fields()
        .put("date", day.date().toString())
        .put("zone", day.zone().getId())
        .put("events", events)
        .put("absent", absent)
        .map();
  }

  static String text(SunDay day) {
    StringBuilder text = new StringBuilder();
    for (SunEvent event : day.events()) {
      text.append(
          String.format(
              Locale.ROOT,
              "%-18s %tT %<tz  azimuth %.1f°%n",
              event.kind().label(),
              local(day, event),
              event.direction().azimuth().trueDeg()));
    }
    for (SunEventKind kind : SunEventKind.values()) {
      day.absence(kind)
          .ifPresent(
              reason ->
                  text.append(String.format(Locale.ROOT, "%-18s %s%n", kind.label(), reason)));
    }
    return text.toString();
  }

  private static OffsetDateTime local(SunDay day, SunEvent event) {
    return event.at().atZone(day.zone()).toOffsetDateTime();
  }
}
