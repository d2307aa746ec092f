package org.lightledger.store;

import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Sky;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.KeptPlan;

/** The kept plans of sessions, one for each. */
public final class PlanStore {
  private final LedgerSession session;

  PlanStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * Keeps a plan in place of the one before. Calendars learn of it.
   *
   * @param sessionId the ledger's number of the session
   * @param plan the plan
   * @throws LedgerException when there is no such session, or no such spot
   */
  public void keep(long sessionId, KeptPlan plan) {
    delete(sessionId);
    changing();
    GeoPoint meeting = plan.meeting().place();
    long planId =
        session
            .call(
                "INSERT INTO plans (session_id, made_ms, sky, by_hand, call_ms, end_ms,"
                    + " meeting_words, meeting_latitude_deg, meeting_longitude_deg)"
                    + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING id")
            .integer(sessionId)
            .millis(plan.madeAt())
            .name(plan.sky())
            .flag(plan.byHand())
            .millis(plan.callTime())
            .millis(plan.end())
            .text(plan.meeting().words())
            .real("latitude in degrees", meeting == null ? null : meeting.latitudeDeg())
            .real("longitude in degrees", meeting == null ? null : meeting.longitudeDeg())
            .number();
    for (int place = 0; place < plan.stops().size(); place++) {
      addStop(planId, place, plan.stops().get(place));
    }
    session.sessions().revise(sessionId);
  }

  private void addStop(long planId, int place, KeptPlan.Stop stop) {
    KeptPlan.Drive drive = stop.drive();
    Bearing facing = stop.facing();
    long stopId =
        session
            .call(
                "INSERT INTO plan_stops (plan_id, place, spot_id, arrive_ms, shoot_ms, shoot_until_ms,"
                    + " leave_ms, outfit, drive_min, drive_source, facing_deg, fallback_spot_id)"
                    + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING id")
            .integer(planId)
            .integer(place)
            .integer(stop.spotId())
            .millis(stop.arrive())
            .millis(stop.shootFrom())
            .millis(stop.shootUntil())
            .millis(stop.leave())
            .integer(stop.outfit())
            .integer(drive == null ? null : drive.minutes())
            .name(drive == null ? null : drive.source())
            .real("facing in degrees", facing == null ? null : facing.trueDeg())
            .integer(stop.fallbackSpotId())
            .number();
    for (KeptPlan.Change change : stop.changes()) {
      session
          .call("INSERT INTO plan_changes (stop_id, from_ms, until_ms, outfit) VALUES (?, ?, ?, ?)")
          .integer(stopId)
          .millis(change.from())
          .millis(change.until())
          .integer(change.toOutfit())
          .run();
    }
  }

  /**
   * Forgets the plan of a session, if there is one. Calendars learn of it.
   *
   * @param sessionId the ledger's number of the session
   */
  public void forget(long sessionId) {
    if (delete(sessionId)) {
      changing();
      session.sessions().revise(sessionId);
    }
  }

  private boolean delete(long sessionId) {
    return session.call("DELETE FROM plans WHERE session_id = ?").integer(sessionId).run() > 0;
  }

  private void changing() {
    session.changing(LedgerSession.Content.PLANS);
    session.changing(LedgerSession.Content.PLAN_STOPS);
    session.changing(LedgerSession.Content.PLAN_CHANGES);
  }

  /**
   * The plan of a session.
   *
   * @param sessionId the ledger's number of the session
   * @return the plan, or nothing when none is kept
   */
  public Optional<KeptPlan> find(long sessionId) {
    Map<Long, List<KeptPlan.Change>> changes = changes(sessionId);
    List<KeptPlan.Stop> stops =
        session
            .call(
                "SELECT s.id, s.spot_id, s.arrive_ms, s.shoot_ms, s.shoot_until_ms, s.leave_ms,"
                    + " s.outfit, s.drive_min, s.drive_source, s.facing_deg, s.fallback_spot_id"
                    + " FROM plans p JOIN plan_stops s ON s.plan_id = p.id"
                    + " WHERE p.session_id = ? ORDER BY s.place")
            .integer(sessionId)
            .list(row -> readStop(row, changes));
    return session
        .call(
            "SELECT id, made_ms, sky, by_hand, call_ms, end_ms, meeting_words,"
                + " meeting_latitude_deg, meeting_longitude_deg FROM plans WHERE session_id = ?")
        .integer(sessionId)
        .first(row -> readPlan(row, stops));
  }

  private static KeptPlan readPlan(Row row, List<KeptPlan.Stop> stops) throws SQLException {
    long id = row.integer();
    try {
      return new KeptPlan(
          row.instant(),
          Sky.valueOf(row.text()),
          row.flag(),
          row.instant(),
          row.instant(),
          new KeptPlan.Meeting(row.text(), point(row.realOrNull(), row.realOrNull())),
          stops);
    } catch (IllegalArgumentException e) {
      throw LedgerException.foreign("plan " + id, e);
    }
  }

  private static @Nullable GeoPoint point(@Nullable Double latitude, @Nullable Double longitude) {
    return latitude == null || longitude == null ? null : new GeoPoint(latitude, longitude);
  }

  private Map<Long, List<KeptPlan.Change>> changes(long sessionId) {
    Map<Long, List<KeptPlan.Change>> changes = new HashMap<>();
    session
        .call(
            "SELECT c.stop_id, c.from_ms, c.until_ms, c.outfit FROM plans p"
                + " JOIN plan_stops s ON s.plan_id = p.id JOIN plan_changes c ON c.stop_id = s.id"
                + " WHERE p.session_id = ? ORDER BY c.from_ms")
        .integer(sessionId)
        .each(
            row -> {
              long stopId = row.integer();
              try {
                changes
                    .computeIfAbsent(stopId, id -> new ArrayList<>())
                    .add(new KeptPlan.Change(row.instant(), row.instant(), row.whole()));
              } catch (IllegalArgumentException e) {
                throw LedgerException.foreign("a change at stop " + stopId + " of a plan", e);
              }
            });
    return changes;
  }

  private static KeptPlan.Stop readStop(Row row, Map<Long, List<KeptPlan.Change>> changes)
      throws SQLException {
    long id = row.integer();
    try {
      return new KeptPlan.Stop(
          row.integer(),
          row.instant(),
          row.instant(),
          row.instant(),
          row.instant(),
          row.whole(),
          changes.getOrDefault(id, List.of()),
          drive(row.wholeOrNull(), row.textOrNull()),
          bearing(row.realOrNull()),
          row.integerOrNull());
    } catch (IllegalArgumentException e) {
      throw LedgerException.foreign("stop " + id + " of a plan", e);
    }
  }

  private static KeptPlan.@Nullable Drive drive(
      @Nullable Integer minutes, @Nullable String source) {
    return minutes == null || source == null
        ? null
        : new KeptPlan.Drive(minutes, KeptPlan.Drive.Source.valueOf(source));
  }

  private static @Nullable Bearing bearing(@Nullable Double trueDeg) {
    return trueDeg == null ? null : new Bearing(trueDeg);
  }
}
