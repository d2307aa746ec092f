package org.lightledger.web;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import org.lightledger.session.Anchor;
import org.lightledger.session.Client;
import org.lightledger.session.Due;
import org.lightledger.session.Session;
import org.lightledger.session.SessionHours;
import org.lightledger.session.Terms;
import org.lightledger.sun.SunEvening;

/** How pages say when sessions are and what they need. */
final class SessionWords {
  private SessionWords() {}

  static String title(Client client, Session session) {
    return client.calledName() + ", " + Words.day(session.date());
  }

  static String hour(Instant instant, ZoneId zone) {
    return Words.hour(OffsetDateTime.ofInstant(instant, zone));
  }

  static String anchor(Anchor anchor) {
    if (anchor instanceof Anchor.StartsAt starts) {
      return "starts at " + Words.hour(starts.time());
    }
    if (anchor instanceof Anchor.EndsAt ends) {
      return "ends at " + Words.hour(ends.time());
    }
    int minutes = ((Anchor.EndsAtSunset) anchor).minutesAfter();
    return minutes == 0
        ? "ends at sunset"
        : "ends "
            + Words.count(Math.abs(minutes), "minute", "minutes")
            + (minutes < 0 ? " before" : " after")
            + " sunset";
  }

  /** From when to when, or why that is not known. */
  static String hours(SessionHours hours) {
    SessionHours.Span span = hours.span();
    ZoneId zone = hours.sun().zone();
    return span == null ? "hours not known: " + hours.why() : span(span, zone);
  }

  static String span(SessionHours.Span span, ZoneId zone) {
    return hour(span.start(), zone)
        + " to "
        + hour(span.end(), zone, LocalDate.ofInstant(span.start(), zone));
  }

  /** The hour, and that it is the next day's when it is. */
  private static String hour(Instant instant, ZoneId zone, LocalDate day) {
    return hour(instant, zone)
        + (LocalDate.ofInstant(instant, zone).isAfter(day) ? " the next day" : "");
  }

  static String terms(Terms terms) {
    return terms.name()
        + ": up to "
        + Words.count(terms.outfitLimit(), "outfit", "outfits")
        + ", "
        + (terms.leastStops() == terms.mostStops()
            ? Words.count(terms.mostStops(), "stop", "stops")
            : terms.leastStops() + " to " + terms.mostStops() + " stops")
        + ", "
        + length(Duration.ofMinutes(terms.lengthMinutes()));
  }

  static String length(Duration length) {
    long hours = length.toHours();
    int minutes = length.toMinutesPart();
    return hours == 0
        ? minutes + " min"
        : minutes == 0 ? hours + " h" : hours + " h " + minutes + " min";
  }

  /** What the sun does in the evening of a day. */
  static String evening(SunEvening evening) {
    String sunset =
        evening
            .sunset()
            .map(at -> "Sunset " + hour(at, evening.zone(), evening.date()))
            .orElseGet(() -> Words.capital(evening.absence()));
    String dusk =
        evening
            .civilDusk()
            .map(at -> ", civil dusk " + hour(at, evening.zone(), evening.date()))
            .orElse("");
    return sunset + dusk;
  }

  static String due(Due due) {
    String task = Words.capital(due.task().label());
    return switch (due.task()) {
      case ASK_FOR_ANSWERS -> Words.count(due.count(), "answer is", "answers are") + " missing";
      case REHEARSE ->
          "Rehearse: "
              + Words.count(due.count(), "spot has", "spots have")
              + " not been seen in this light";
      case PACK -> "Pack: " + Words.count(due.count(), "thing is", "things are") + " open";
      default -> task;
    };
  }

  static String since(Due due) {
    if (due.overdueDays() == 0) {
      return "due today";
    }
    return "due since " + Words.day(due.on());
  }

  /** The page on which something due is done. */
  static String href(Due due) {
    String part =
        switch (due.task()) {
          case ASK_FOR_ANSWERS -> "#answers";
          case CHOOSE_CANDIDATES, REHEARSE -> "#candidates";
          case MAKE_PLAN, AGREE_PLAN -> "#plan";
          case PACK -> "#pack";
          case SAY_HOW_IT_WENT -> "#state";
          case SEND_QUESTIONS, SEND_REMINDER -> "/messages";
          case PHOTOGRAPH -> "";
        };
    return "/sessions/" + due.session().id() + part;
  }
}
