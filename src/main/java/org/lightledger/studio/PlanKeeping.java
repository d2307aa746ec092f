package org.lightledger.studio;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Candidate;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.session.drive.Drive;
import org.lightledger.session.planner.Fallback;
import org.lightledger.session.planner.OutfitChange;
import org.lightledger.session.planner.PlannedStop;
import org.lightledger.session.planner.SessionPlan;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;

/** Turns a plan of the planner into the one that the owner keeps. */
public final class PlanKeeping {
  private PlanKeeping() {}

  /**
   * The plan to keep.
   *
   * @param plan the planner's
   * @param meeting where all meet
   * @param byHand whether the order is the owner's
   * @param now the present
   * @return the plan
   */
  public static KeptPlan of(
      SessionPlan plan, KeptPlan.Meeting meeting, boolean byHand, Instant now) {
    return new KeptPlan(
        now,
        plan.sky(),
        byHand,
        plan.callTime(),
        plan.end(),
        meeting,
        plan.stops().stream().map(stop -> stop(stop, changes(plan, stop))).toList());
  }

  /**
   * What a plan was made for.
   *
   * @param booked the session
   * @param candidates the spots that it may stop at
   */
  public record Basis(Session booked, List<Candidate> candidates) {
    /** Keeps an own copy. */
    public Basis {
      candidates = List.copyOf(candidates);
    }

    /**
     * What is there to plan for.
     *
     * @param session the ledger
     * @param booked the session
     * @return the session with its candidates
     */
    public static Basis of(LedgerSession session, Session booked) {
      return new Basis(booked, session.candidates().of(booked.id()));
    }

    private boolean holds(LedgerSession session, Session now) {
      return booked.date().equals(now.date())
          && booked.zone().equals(now.zone())
          && booked.anchor().equals(now.anchor())
          && booked.terms().equals(now.terms())
          && candidates.equals(session.candidates().of(now.id()));
    }
  }

  /**
   * Keeps a plan. A session that was only booked is planned then; one that was agreed is to be
   * agreed again, unless the client would be told the same as before.
   *
   * @param ledger the ledger
   * @param basis what it was made for
   * @param plan the plan
   * @return whether it is to be agreed again; nothing when the session is no longer what it was
   *     made for, and nothing is kept
   */
  public static Optional<PlanChange> keep(Ledger ledger, Basis basis, KeptPlan plan) {
    long sessionId = basis.booked().id();
    return ledger.write(
        session -> {
          Session now = session.sessions().find(sessionId).orElse(null);
          if (now == null || !basis.holds(session, now)) {
            return Optional.empty();
          }
          Session.State state = now.state();
          boolean same = session.plans().find(sessionId).filter(plan::tellsTheSameAs).isPresent();
          session.plans().keep(sessionId, plan);
          if (state == Session.State.BOOKED || state == Session.State.AGREED && !same) {
            session.sessions().setState(sessionId, Session.State.PLANNED);
          }
          return Optional.of(
              state == Session.State.AGREED && !same ? PlanChange.AGREE_AGAIN : PlanChange.NONE);
        });
  }

  /**
   * Forgets a plan; a session that was planned or agreed is only booked then.
   *
   * @param session the ledger, for writing
   * @param booked the session
   * @return whether it had been agreed
   */
  public static PlanChange forget(LedgerSession session, Session booked) {
    session.plans().forget(booked.id());
    if (booked.state() == Session.State.PLANNED || booked.state() == Session.State.AGREED) {
      session.sessions().setState(booked.id(), Session.State.BOOKED);
    }
    return booked.state() == Session.State.AGREED ? PlanChange.AGREE_AGAIN : PlanChange.NONE;
  }

  private static KeptPlan.Stop stop(PlannedStop stop, List<KeptPlan.Change> changes) {
    Fallback fallback = stop.fallback();
    return new KeptPlan.Stop(
        stop.spotId(),
        stop.arrive(),
        stop.shootFrom(),
        stop.shootUntil(),
        stop.leave(),
        stop.outfit(),
        changes,
        drive(stop.drive()),
        stop.facing(),
        fallback == null ? null : fallback.spotId());
  }

  /** All changes that are made at a stop, whichever stop they are for. */
  private static List<KeptPlan.Change> changes(SessionPlan plan, PlannedStop at) {
    List<KeptPlan.Change> changes = new ArrayList<>();
    for (PlannedStop stop : plan.stops()) {
      add(changes, stop.changeBefore(), at);
      add(changes, stop.changeWithin(), at);
    }
    return changes;
  }

  private static void add(
      List<KeptPlan.Change> changes, @Nullable OutfitChange change, PlannedStop at) {
    if (change != null && change.spotId() == at.spotId()) {
      changes.add(new KeptPlan.Change(change.from(), change.until(), change.toOutfit()));
    }
  }

  private static KeptPlan.@Nullable Drive drive(@Nullable Drive drive) {
    return drive == null
        ? null
        : new KeptPlan.Drive(drive.minutes(), KeptPlan.Drive.Source.valueOf(drive.source().name()));
  }
}
