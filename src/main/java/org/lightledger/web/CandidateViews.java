package org.lightledger.web;

import io.javalin.http.Context;
import java.time.Instant;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Answer;
import org.lightledger.ask.OtherWindows;
import org.lightledger.light.LightClass;
import org.lightledger.session.Candidate;
import org.lightledger.session.Session;
import org.lightledger.session.SessionHours;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.SessionLight;
import org.lightledger.studio.Studio;
import org.lightledger.web.chart.LightGlyph;

/** Shows the candidates of a session with their light, and finds more in the stock. */
final class CandidateViews {
  /** So many spots are proposed at once: own choice. */
  private static final int MOST_FOUND = 12;

  private final Studio studio;

  CandidateViews(Studio studio) {
    this.studio = studio;
  }

  CandidatesView view(
      Context ctx,
      LedgerSession session,
      Session booked,
      @Nullable SessionHours hours,
      Set<Trait> liked,
      Sent sent) {
    List<Candidate> candidates = session.candidates().of(booked.id());
    List<Long> ids = candidates.stream().map(Candidate::spotId).toList();
    SessionLight light = hours == null ? null : studio.light(hours);
    Map<Long, List<SessionLight.Stretch>> lights = light == null ? Map.of() : light.at(ids);
    List<CandidatesView.Row> rows = new ArrayList<>();
    for (int i = 0; i < candidates.size(); i++) {
      Candidate candidate = candidates.get(i);
      Spot spot = session.spots().find(candidate.spotId()).orElseThrow();
      rows.add(
          row(
              candidate,
              spot,
              lights.getOrDefault(spot.id(), List.of()).stream()
                  .filter(stretch -> !isWithinAMinute(stretch))
                  .map(CandidateViews::light)
                  .toList(),
              cautions(session, spot),
              i,
              candidates.size(),
              sent));
    }
    List<AskPage.ListChoice> shortlists =
        session.shortlists().all().stream()
            .filter(list -> !list.entries().isEmpty())
            .map(list -> new AskPage.ListChoice(String.valueOf(list.id()), list.title(), false))
            .toList();
    return new CandidatesView(
        booked.id(), rows, shortlists, search(ctx, session, light, hours, liked, Set.copyOf(ids)));
  }

  private static CandidatesView.Row row(
      Candidate candidate,
      Spot spot,
      List<CandidatesView.Light> lights,
      String cautions,
      int place,
      int count,
      Sent sent) {
    String form = "candidate-" + spot.id();
    LocalTime arrival = candidate.arrival();
    Integer stay = candidate.stayMinutes();
    String chosen = sent.text(form, "choice", candidate.choice().name());
    List<AskPage.Choice> choices = new ArrayList<>();
    for (Candidate.Choice choice : Candidate.Choice.values()) {
      choices.add(new AskPage.Choice(choice.name(), choice.label(), choice.name().equals(chosen)));
    }
    List<AskPage.Choice> wanted = new ArrayList<>();
    for (LightClass light : LightClass.values()) {
      boolean kept = candidate.wanted().contains(light);
      wanted.add(
          new AskPage.Choice(
              light.code(), light.label(), sent.ticked(form, "wanted", light.code(), kept)));
    }
    return new CandidatesView.Row(
        spot.id(),
        place + 1,
        spot.name(),
        candidate.choice().name(),
        candidate.choice().label(),
        choices,
        lights,
        lights.isEmpty() ? none(spot) : "",
        wanted,
        candidate.wanted().stream()
            .sorted()
            .map(LightClass::label)
            .collect(Collectors.joining(", ")),
        sent.text(form, "stay-" + spot.id(), stay == null ? "" : String.valueOf(stay)),
        sent.text(form, "arrival-" + spot.id(), arrival == null ? "" : Words.hour(arrival)),
        cautions,
        sent.is(form),
        place == 0,
        place == count - 1);
  }

  private static String cautions(LedgerSession session, Spot spot) {
    String hours =
        session
            .drives()
            .hours(spot.id())
            .map(open -> "Open " + Words.hour(open.opens()) + " to " + Words.hour(open.closes()))
            .orElse("");
    return hours.isEmpty() || spot.cautions().isEmpty()
        ? hours + spot.cautions()
        : hours + ". " + spot.cautions();
  }

  private static String none(Spot spot) {
    return spot.open()
        ? "any direction works here; the plan looks where the light is best"
        : "not told: its facing or the session's hours are not known";
  }

  private static boolean isWithinAMinute(SessionLight.Stretch stretch) {
    return Words.hour(stretch.from()).equals(Words.hour(stretch.until()));
  }

  private static CandidatesView.Light light(SessionLight.Stretch stretch) {
    return new CandidatesView.Light(
        LightGlyph.of(stretch.light(), stretch.relativeBearingDeg()),
        Words.capital(stretch.light().label()),
        Words.window(stretch.from(), stretch.until())
            + ", looking "
            + Words.bearing(stretch.facing()),
        stretch.tier().label());
  }

  /** A light, within the session's hours. */
  private static CandidatesView.Light light(Answer answer, SessionHours hours) {
    Answer.Window window = within(answer.window(), hours);
    String also =
        OtherWindows.text(
            answer.others().stream()
                .map(other -> new Answer.Other(other.light(), within(other.window(), hours)))
                .toList(),
            answer.light());
    return new CandidatesView.Light(
        LightGlyph.of(answer.light(), answer.relativeBearingDeg()),
        Words.capital(answer.light().label()),
        Words.window(window.from(), window.to())
            + (also.isEmpty() ? "" : " (" + also + ")")
            + ", looking "
            + Words.bearing(answer.facing()),
        answer.tier().label());
  }

  private static Answer.Window within(Answer.Window window, SessionHours hours) {
    SessionHours.Span span = hours.span();
    return span == null
        ? window
        : new Answer.Window(later(window.from(), span.start()), earlier(window.to(), span.end()));
  }

  private static OffsetDateTime later(OffsetDateTime at, Instant start) {
    return at.toInstant().isBefore(start) ? OffsetDateTime.ofInstant(start, at.getOffset()) : at;
  }

  private static OffsetDateTime earlier(OffsetDateTime at, Instant end) {
    return at.toInstant().isAfter(end) ? OffsetDateTime.ofInstant(end, at.getOffset()) : at;
  }

  private static CandidatesView.Search search(
      Context ctx,
      LedgerSession session,
      @Nullable SessionLight light,
      @Nullable SessionHours hours,
      Set<Trait> liked,
      Set<Long> present) {
    Set<LightClass> wanted = EnumSet.noneOf(LightClass.class);
    for (String code : ctx.queryParams("light")) {
      for (LightClass one : LightClass.values()) {
        if (one.code().equals(code)) {
          wanted.add(one);
        }
      }
    }
    boolean asked = ctx.queryParam("find") != null;
    if (wanted.isEmpty()) {
      wanted.addAll(EnumSet.of(LightClass.BACKLIT, LightClass.RIM));
    }
    List<AskPage.Choice> choices = new ArrayList<>();
    for (LightClass one : LightClass.values()) {
      choices.add(new AskPage.Choice(one.code(), one.label(), wanted.contains(one)));
    }
    List<CandidatesView.Found> found = new ArrayList<>();
    if (asked && light != null && hours != null) {
      for (Answer answer : light.propose(wanted, liked, present, MOST_FOUND)) {
        Set<Trait> traits = session.traits().of(answer.spot().id());
        traits.retainAll(liked);
        found.add(
            new CandidatesView.Found(
                answer.spot().id(), answer.spot().name(), light(answer, hours), labels(traits)));
      }
    }
    String said =
        !asked
            ? ""
            : found.isEmpty()
                ? "No other spot of the stock is known to have that light in the session's hours."
                : Words.count(found.size(), "spot", "spots")
                    + (found.size() == MOST_FOUND ? ", the best ones" : "");
    return new CandidatesView.Search(choices, labels(liked), found, said, asked);
  }

  private static String labels(Set<Trait> traits) {
    return traits.stream().sorted().map(Trait::label).collect(Collectors.joining(", "));
  }
}
