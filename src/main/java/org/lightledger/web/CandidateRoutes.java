package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.lightledger.light.LightClass;
import org.lightledger.session.Candidate;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.PlanChange;
import org.lightledger.studio.Rescheduling;
import org.lightledger.studio.Studio;

/** The spots that a session may stop at. */
final class CandidateRoutes {
  private static final int LEAST_STAY = 5;
  private static final int MOST_STAY = 480;

  private final House house;
  private final Rescheduling rescheduling;
  private final SessionPages pages;

  CandidateRoutes(House house, Studio studio, SessionPages pages) {
    this.house = house;
    this.rescheduling = new Rescheduling(studio);
    this.pages = pages;
  }

  void register(RoutesConfig routes) {
    routes.post("/sessions/{id}/candidates", this::add);
    routes.post("/sessions/{id}/candidates/shortlist", this::addShortlist);
    routes.post("/sessions/{id}/candidates/{spot}", this::saveCandidate);
    routes.post("/sessions/{id}/candidates/{spot}/up", ctx -> move(ctx, -1));
    routes.post("/sessions/{id}/candidates/{spot}/down", ctx -> move(ctx, 1));
    routes.post("/sessions/{id}/candidates/{spot}/remove", this::removeCandidate);
  }

  /** Changes the candidates of a session; its clocks follow them. */
  private void changeCandidates(Context ctx, String part, Consumer<LedgerSession> change) {
    long id = House.id(ctx, "id");
    PlanChange became =
        house
            .ledger()
            .write(
                session -> {
                  SessionPages.find(ctx, session);
                  change.accept(session);
                  return rescheduling.followPlace(session, id);
                });
    ctx.redirect(SessionPages.changed(id, became, part), HttpStatus.SEE_OTHER);
  }

  private void add(Context ctx) {
    List<Long> spots = new ArrayList<>();
    for (String number : ctx.formParams("spot")) {
      spots.add(spot(number));
    }
    if (spots.isEmpty()) {
      throw PageProblem.notFound("No spot was chosen.");
    }
    addFree(ctx, session -> spots);
  }

  private static long spot(String number) {
    try {
      return Long.parseLong(number);
    } catch (NumberFormatException e) {
      throw PageProblem.notFound("There is no spot with this number.");
    }
  }

  private void addShortlist(Context ctx) {
    long list = spot(ctx.formParams("list").stream().findFirst().orElse(""));
    addFree(
        ctx,
        session ->
            session
                .shortlists()
                .find(list)
                .orElseThrow(() -> PageProblem.notFound("There is no shortlist with this number."))
                .entries()
                .stream()
                .map(Shortlist.Entry::spotId)
                .distinct()
                .toList());
  }

  /** Spots that are candidates already stay as they are. */
  private void addFree(Context ctx, Function<LedgerSession, List<Long>> spots) {
    long id = House.id(ctx, "id");
    changeCandidates(
        ctx,
        "#candidates",
        session -> {
          Set<Long> present =
              session.candidates().of(id).stream()
                  .map(Candidate::spotId)
                  .collect(Collectors.toSet());
          for (long spotId : spots.apply(session)) {
            if (session.spots().find(spotId).isEmpty()) {
              throw PageProblem.notFound("There is no spot with this number.");
            }
            if (present.add(spotId)) {
              session
                  .candidates()
                  .put(id, new Candidate(spotId, Candidate.Choice.FREE, Set.of(), null, null));
            }
          }
        });
  }

  private void saveCandidate(Context ctx) {
    long spotId = House.id(ctx, "spot");
    Fields fields = new Fields(ctx::formParams);
    Candidate.Choice choice = choice(fields, spotId);
    Set<LightClass> wanted = EnumSet.noneOf(LightClass.class);
    for (String code : fields.all("wanted")) {
      LightClass light = fields.light("wanted-" + spotId, "Light wanted", code);
      if (light != null) {
        wanted.add(light);
      }
    }
    Integer stay =
        fields.whole("stay-" + spotId, "Minutes to stay", LEAST_STAY, MOST_STAY, " minutes");
    LocalTime arrival = fields.clock("arrival-" + spotId, "Arrival");
    if (arrival != null && choice != Candidate.Choice.LOCKED) {
      fields.problem(
          "arrival-" + spotId,
          "Arrival",
          "expected an arrival for a locked stop alone, found one for a stop that is "
              + choice.label());
    }
    if (!fields.problems().isEmpty()) {
      pages.refuse(ctx, new Sent("candidate-" + spotId, fields));
      return;
    }
    changeCandidates(
        ctx,
        "#candidate-" + spotId,
        session -> {
          requireCandidate(ctx, session, spotId);
          session
              .candidates()
              .put(House.id(ctx, "id"), new Candidate(spotId, choice, wanted, stay, arrival));
        });
  }

  private static Candidate.Choice choice(Fields fields, long spotId) {
    for (Candidate.Choice choice : Candidate.Choice.values()) {
      if (choice.name().equals(fields.raw("choice"))) {
        return choice;
      }
    }
    fields.problem(
        "choice-" + spotId,
        "Choice",
        "expected free, locked or left out, found " + Fields.found(fields.raw("choice")));
    return Candidate.Choice.FREE;
  }

  private static List<Long> requireCandidate(Context ctx, LedgerSession session, long spotId) {
    List<Long> spots =
        session.candidates().of(House.id(ctx, "id")).stream().map(Candidate::spotId).toList();
    if (!spots.contains(spotId)) {
      throw PageProblem.notFound("That spot is no longer a candidate of this session.");
    }
    return spots;
  }

  private void move(Context ctx, int by) {
    long spotId = House.id(ctx, "spot");
    long id =
        pages.change(
            ctx,
            session -> {
              List<Long> order = new ArrayList<>(requireCandidate(ctx, session, spotId));
              int from = order.indexOf(spotId);
              int to = Math.min(Math.max(from + by, 0), order.size() - 1);
              Collections.swap(order, from, to);
              session.candidates().reorder(House.id(ctx, "id"), order);
            });
    ctx.redirect("/sessions/" + id + "#candidate-" + spotId, HttpStatus.SEE_OTHER);
  }

  private void removeCandidate(Context ctx) {
    long spotId = House.id(ctx, "spot");
    changeCandidates(
        ctx,
        "#candidates",
        session -> {
          requireCandidate(ctx, session, spotId);
          session.candidates().remove(House.id(ctx, "id"), spotId);
        });
  }
}
