package org.lightledger.studio;

import java.time.Instant;
import java.time.ZoneId;
import java.util.Optional;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.session.SessionHours;
import org.lightledger.store.LedgerException;
import org.lightledger.store.LedgerSession;

/**
 * Changes when a session is and what was booked, and follows the clocks of its place. A plan that
 * was made for other hours or terms goes, and what the client agreed to is to be agreed again.
 */
public final class Rescheduling {
  private final Studio studio;

  /**
   * Rescheduling in a studio.
   *
   * @param studio the studio
   */
  public Rescheduling(Studio studio) {
    this.studio = studio;
  }

  /**
   * Has a session that is to come follow the clocks of the spots it may stop at, once these have
   * changed. What its anchor says of the clock stays as it was said.
   *
   * @param session the ledger, for writing
   * @param id the ledger's number of the session
   * @return what became of its plan
   */
  public PlanChange followPlace(LedgerSession session, long id) {
    Session booked = session.sessions().find(id).orElseThrow();
    return booked.state().isOpen() && !studio.zone(session, booked).equals(booked.zone())
        ? reschedule(session, booked)
        : PlanChange.NONE;
  }

  /**
   * Changes a session. One that is to come follows the clocks of its place.
   *
   * @param session the ledger, for writing
   * @param changed the session with its number; uid, revision, zone, state and brief do not count
   * @return what became of its plan
   * @throws LedgerException when there is no such session or client
   */
  public PlanChange reschedule(LedgerSession session, Session changed) {
    Session before = session.sessions().find(changed.id()).orElse(changed);
    Session after =
        changed.in(before.state().isOpen() ? studio.zone(session, changed) : before.zone());
    session.sessions().reschedule(after);
    Optional<KeptPlan> plan = session.plans().find(after.id());
    if (plan.isPresent() && !holds(session, plan.get(), before, after)) {
      PlanKeeping.forget(session, before);
      return PlanChange.GONE;
    }
    boolean agreed =
        before.clientId() == after.clientId() && (plan.isPresent() || sameHours(before, after));
    if (before.state() != Session.State.AGREED || agreed) {
      return PlanChange.NONE;
    }
    session
        .sessions()
        .setState(after.id(), plan.isPresent() ? Session.State.PLANNED : Session.State.BOOKED);
    return PlanChange.AGREE_AGAIN;
  }

  private static boolean sameHours(Session before, Session after) {
    return before.date().equals(after.date()) && before.anchor().equals(after.anchor());
  }

  private boolean holds(LedgerSession session, KeptPlan plan, Session before, Session after) {
    return sameHours(before, after)
        && sameClock(plan.callTime(), before.zone(), after.zone())
        && sameClock(plan.end(), before.zone(), after.zone())
        && (before.terms().equals(after.terms()) || plan.fits(after.terms()))
        && (after.terms().lengthMinutes() >= before.terms().lengthMinutes()
            || isWithin(plan, studio.hours(session, after)));
  }

  private static boolean sameClock(Instant at, ZoneId one, ZoneId other) {
    return one.getRules().getOffset(at).equals(other.getRules().getOffset(at));
  }

  private static boolean isWithin(KeptPlan plan, Optional<SessionHours> hours) {
    return hours
        .map(SessionHours::span)
        .filter(span -> !plan.callTime().isBefore(span.start()) && !plan.end().isAfter(span.end()))
        .isPresent();
  }
}
