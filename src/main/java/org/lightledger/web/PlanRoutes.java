package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Sky;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.session.planner.PlanOutcome;
import org.lightledger.session.planner.PlanRequest;
import org.lightledger.session.planner.Planner;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.PlanChange;
import org.lightledger.studio.PlanKeeping;
import org.lightledger.studio.SessionPlanning;
import org.lightledger.sun.SunEphemeris;

/** The planner of a session: proposes a plan, times the owner's order, and keeps what is chosen. */
final class PlanRoutes {
  private final House house;
  private final SessionPlanning planning;
  private final SunEphemeris sun;

  PlanRoutes(House house, SessionPlanning planning, SunEphemeris sun) {
    this.house = house;
    this.planning = planning;
    this.sun = sun;
  }

  void register(RoutesConfig routes) {
    routes.get("/sessions/{id}/plan", this::show);
    routes.post("/sessions/{id}/plan", this::keep);
    routes.post("/sessions/{id}/plan/forget", this::forget);
  }

  /** What is asked for, and what can be planned. */
  private record Asked(
      PlanKeeping.Basis basis, String title, PlanFields fields, SessionPlanning.Prepared prepared) {
    Session booked() {
      return basis.booked();
    }
  }

  private Asked asked(Context ctx, LedgerSession session, Fields fields) {
    Session booked = SessionPages.find(ctx, session);
    PlanKeeping.Basis basis = PlanKeeping.Basis.of(session, booked);
    PlanFields wish =
        PlanFields.read(
            fields,
            booked,
            basis.candidates(),
            session
                .plans()
                .find(booked.id())
                .map(KeptPlan::meeting)
                .orElse(new KeptPlan.Meeting("", null)));
    return new Asked(
        basis,
        SessionWords.title(SessionPages.client(session, booked.clientId()), booked),
        wish,
        fields.problems().isEmpty()
            ? planning.prepare(session, booked, wish.wish())
            : new SessionPlanning.Prepared(null, ""));
  }

  private void show(Context ctx) {
    Fields fields = new Fields(ctx::queryParams);
    Asked asked = house.ledger().read(session -> asked(ctx, session, fields));
    if (!fields.problems().isEmpty()) {
      ctx.status(422);
    }
    house.show(ctx, "plan", "Plan: " + asked.title(), Frame.Room.SESSIONS, page(asked, fields));
  }

  private PlanPage page(Asked asked, Fields fields) {
    long id = asked.booked().id();
    PlanRequest request = asked.prepared().request();
    PlanFields wish = asked.fields();
    PlanPage.Outcome best = null;
    PlanPage.Outcome byHand = null;
    PlanPage.Overcast other = null;
    if (request != null) {
      PlanOutcomes outcomes =
          new PlanOutcomes(request, sun, order -> wish.href(id, order, request.sky()) + "#by-hand");
      PlanOutcome outcome = Planner.plan(request);
      best = outcomes.show(outcome, "");
      if (!wish.order().isEmpty()) {
        Planner.ByHand hand = Planner.byHand(request, wish.order(), Map.of());
        byHand = outcomes.show(hand.outcome(), hand.cost());
      }
      other = other(wish, id, request, outcome);
    }
    return new PlanPage(
        id,
        asked.title(),
        wish.form(asked.booked()),
        asked.prepared().missing(),
        best,
        byHand,
        other,
        fields.problems());
  }

  /** What would differ under an overcast sky; nothing when that is the one planned for. */
  private static PlanPage.@Nullable Overcast other(
      PlanFields wish, long id, PlanRequest request, PlanOutcome outcome) {
    if (request.sky() == Sky.OVERCAST || !(outcome instanceof PlanOutcome.Planned planned)) {
      return null;
    }
    Planner.Alternative alternative = Planner.overcast(request, planned.plan());
    return new PlanPage.Overcast(
        "overcast",
        alternative.differs().isEmpty()
            ? List.of("The same stops at the same times.")
            : alternative.differs(),
        wish.href(id, List.of(), Sky.OVERCAST));
  }

  /** Plans again what the page showed, so that nothing can be kept that was not planned. */
  private void keep(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    Asked asked = house.ledger().read(session -> asked(ctx, session, fields));
    PlanRequest request = asked.prepared().request();
    PlanFields wish = asked.fields();
    boolean byHand = !wish.order().isEmpty();
    PlanOutcome outcome =
        request == null
            ? null
            : byHand
                ? Planner.byHand(request, wish.order(), Map.of()).outcome()
                : Planner.plan(request);
    if (!(outcome instanceof PlanOutcome.Planned planned)) {
      ctx.status(422);
      house.show(ctx, "plan", "Plan: " + asked.title(), Frame.Room.SESSIONS, page(asked, fields));
      return;
    }
    KeptPlan plan = PlanKeeping.of(planned.plan(), wish.wish().meeting(), byHand, planning.now());
    long id = asked.booked().id();
    PlanChange change =
        PlanKeeping.keep(house.ledger(), asked.basis(), plan)
            .orElseThrow(
                () ->
                    new PageProblem(
                        409,
                        "Changed meanwhile",
                        "The session or its spots were changed while this was planned, so the plan"
                            + " may be for other hours and was not kept.",
                        "Open the session and plan it again.",
                        List.of()));
    ctx.redirect(SessionPages.saved(id, change, "#plan"), HttpStatus.SEE_OTHER);
  }

  private void forget(Context ctx) {
    long id = House.id(ctx, "id");
    PlanChange change =
        house
            .ledger()
            .write(session -> PlanKeeping.forget(session, SessionPages.find(ctx, session)));
    ctx.redirect(SessionPages.saved(id, change, "#plan"), HttpStatus.SEE_OTHER);
  }
}
