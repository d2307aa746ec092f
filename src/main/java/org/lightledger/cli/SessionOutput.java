package org.lightledger.cli;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.light.LightClass;
import org.lightledger.session.Answer;
import org.lightledger.session.Candidate;
import org.lightledger.session.Due;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.PackItem;
import org.lightledger.session.Session;
import org.lightledger.session.SessionHours;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.store.LedgerSession;
import org.lightledger.web.SessionDay;

/** Writes sessions for machines and for people. */
final class SessionOutput {
  private SessionOutput() {}

  static Map<String, @Nullable Object> json(
      LedgerSession session, Session booked, Optional<SessionHours> hours) {
    SessionHours.Span span = hours.map(SessionHours::span).orElse(null);
    return Json.fields()
        .put("sessionId", booked.id())
        .put("clientId", booked.clientId())
        .put("date", booked.date().toString())
        .put("zone", booked.zone().getId())
        .put("anchor", booked.anchor().code())
        .put("start", span == null ? null : time(span.start(), booked.zone()))
        .put("end", span == null ? null : time(span.end(), booked.zone()))
        .put("hoursNotKnown", span == null ? hours.map(SessionHours::why).orElse("") : null)
        .put("package", booked.terms().name())
        .put("outfitLimit", booked.terms().outfitLimit())
        .put("leastStops", booked.terms().leastStops())
        .put("mostStops", booked.terms().mostStops())
        .put("lengthMin", booked.terms().lengthMinutes())
        .put("state", code(booked.state()))
        .put("candidates", candidates(session, booked.id()))
        .put(
            "answers",
            session.questionnaire().answers(booked.id()).stream()
                .map(answer -> answer(answer, booked.zone()))
                .toList())
        .put("packing", packing(session, booked.id()))
        .put("planned", session.plans().find(booked.id()).map(KeptPlan::stops).isPresent())
        .map();
  }

  static String code(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT);
  }

  static @Nullable String time(Instant instant, ZoneId zone) {
    return Json.time(instant.atZone(zone).toOffsetDateTime());
  }

  static List<Map<String, @Nullable Object>> candidates(LedgerSession session, long id) {
    return session.candidates().of(id).stream()
        .map(
            candidate ->
                Json.fields()
                    .put("spotId", candidate.spotId())
                    .put("name", name(session, candidate))
                    .put("choice", code(candidate.choice()))
                    .put(
                        "wanted",
                        candidate.wanted().stream().sorted().map(LightClass::code).toList())
                    .put("stayMin", candidate.stayMinutes())
                    .put(
                        "arrival",
                        candidate.arrival() == null ? null : candidate.arrival().toString())
                    .map())
        .toList();
  }

  private static String name(LedgerSession session, Candidate candidate) {
    return session.spots().find(candidate.spotId()).map(Spot::name).orElse("");
  }

  private static Map<String, @Nullable Object> answer(Answer answer, ZoneId zone) {
    return Json.fields()
        .put("questionId", answer.questionId())
        .put("asked", answer.asked())
        .put("words", answer.words())
        .put("places", answer.places().stream().sorted().map(Trait::code).toList())
        .put("at", time(answer.at(), zone))
        .put("byClient", answer.byClient())
        .map();
  }

  static List<Map<String, @Nullable Object>> packing(LedgerSession session, long id) {
    return session.packing().items(id).stream()
        .map(
            item ->
                Json.fields()
                    .put("itemId", item.id())
                    .put("words", item.words())
                    .put("packed", item.doneAt() != null)
                    .map())
        .toList();
  }

  /** One line about a session. */
  static String line(LedgerSession session, Session booked) {
    return String.format(
        Locale.ROOT,
        "%4d  %s  %s, %s, %s%n",
        booked.id(),
        booked.date(),
        ClientVerb.client(session, booked.clientId()).calledName(),
        booked.anchor().code(),
        booked.state().label());
  }

  /** All about a session. */
  static String text(LedgerSession session, Session booked, Optional<SessionHours> hours) {
    StringBuilder text = new StringBuilder(line(session, booked));
    SessionHours.Span span = hours.map(SessionHours::span).orElse(null);
    text.append(
        span == null
            ? "  Hours not known"
                + hours.map(known -> ": " + known.why()).orElse(": the ledger has no spots")
            : "  " + SessionDay.hours(span, booked.zone()));
    text.append(String.format(Locale.ROOT, "%n"));
    for (Candidate candidate : session.candidates().of(booked.id())) {
      text.append(
          String.format(
              Locale.ROOT,
              "  spot %d  %s (%s)%n",
              candidate.spotId(),
              name(session, candidate),
              candidate.choice().label()));
    }
    for (Answer answer : session.questionnaire().answers(booked.id())) {
      text.append(
          String.format(
              Locale.ROOT,
              "  question %d: %s%s%n",
              answer.questionId(),
              String.join(", ", answer.places().stream().sorted().map(Trait::label).toList()),
              answer.words().isEmpty() ? "" : " " + answer.words()));
    }
    return text.append(items(session, booked.id())).toString();
  }

  static String items(LedgerSession session, long id) {
    StringBuilder text = new StringBuilder();
    for (PackItem item : session.packing().items(id)) {
      text.append(
          String.format(
              Locale.ROOT,
              "  [%s] %d  %s%n",
              item.doneAt() == null ? " " : "x",
              item.id(),
              item.words()));
    }
    return text.toString();
  }

  static Map<String, @Nullable Object> json(Due due) {
    return Json.fields()
        .put("sessionId", due.session().id())
        .put("date", due.session().date().toString())
        .put("task", code(due.task()).replace('_', '-'))
        .put("dueOn", due.on().toString())
        .put("overdueDays", due.overdueDays())
        .put("count", due.count())
        .map();
  }

  static String text(LedgerSession session, Due due) {
    return String.format(
        Locale.ROOT,
        "%s, %s (session %d): %s%s, due %s%n",
        ClientVerb.client(session, due.session().clientId()).calledName(),
        due.session().date(),
        due.session().id(),
        due.task().label(),
        due.count() > 1 ? " (" + due.count() + ")" : "",
        due.overdueDays() == 0 ? "today" : "since " + due.on());
  }
}
