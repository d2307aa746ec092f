package org.lightledger.web;

import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Sky;
import org.lightledger.ask.StayLight;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.session.outgoing.StopLight;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.web.chart.LightGlyph;

/** Shows a kept plan with the light that the stock tells now. */
final class PlanViews {
  private final SunEphemeris sun;

  PlanViews(SunEphemeris sun) {
    this.sun = sun;
  }

  PlanPart part(LedgerSession session, Session booked, KeptPlan plan) {
    ZoneId zone = booked.zone();
    return new PlanPart(
        SessionWords.hour(plan.callTime(), zone),
        meeting(session, plan),
        SessionWords.hour(plan.end(), zone),
        (plan.byHand() ? "In your order, for " : "Made for ")
            + (plan.sky() == Sky.OVERCAST ? "an overcast sky, " : "a clear sky, ")
            + Words.moment(plan.madeAt().atZone(zone).toOffsetDateTime()),
        plan.stops().stream().map(stop -> stop(session, plan.sky(), stop, zone)).toList());
  }

  /** The middle of the pictures at each stop is rehearsed. */
  static @Nullable ScoutingLink scouting(LedgerSession session, KeptPlan plan, Instant now) {
    List<ScoutingLink.Moment> moments = new ArrayList<>();
    for (KeptPlan.Stop stop : plan.stops()) {
      Spot spot = session.spots().find(stop.spotId()).orElseThrow();
      Duration half = Duration.between(stop.shootFrom(), stop.shootUntil()).dividedBy(2);
      moments.add(new ScoutingLink.Moment(spot, stop.shootFrom().plus(half)));
    }
    return ScoutingLink.of(moments, now, 1);
  }

  private static String meeting(LedgerSession session, KeptPlan plan) {
    KeptPlan.Meeting meeting = plan.meeting();
    GeoPoint place = meeting.place();
    String where =
        place == null
            ? session.spots().find(plan.stops().get(0).spotId()).orElseThrow().name()
            : SpotViews.position(place);
    return meeting.words().isEmpty() ? where : meeting.words() + " (" + where + ")";
  }

  private PlanPart.Stop stop(LedgerSession session, Sky sky, KeptPlan.Stop stop, ZoneId zone) {
    Spot spot = session.spots().find(stop.spotId()).orElseThrow();
    Skyline skyline = SpotSky.known(session.skylines().find(spot.id()).orElse(null));
    Bearing facing = stop.facing();
    KeptPlan.Drive drive = stop.drive();
    StayLight light = StopLight.of(sun, stop, spot, skyline, sky, zone);
    return new PlanPart.Stop(
        "/spots/" + spot.id(),
        spot.name(),
        drive == null ? "" : "Drive " + drive.minutes() + " min, " + drive.source().label(),
        SessionWords.hour(stop.arrive(), zone),
        SessionWords.hour(stop.shootFrom(), zone)
            + " to "
            + SessionWords.hour(stop.shootUntil(), zone),
        SessionWords.hour(stop.leave(), zone),
        "Outfit " + stop.outfit(),
        stop.changes().stream()
            .map(
                change ->
                    "Change to outfit "
                        + change.toOutfit()
                        + " from "
                        + SessionWords.hour(change.from(), zone)
                        + " to "
                        + SessionWords.hour(change.until(), zone))
            .toList(),
        facing == null ? "" : Words.bearing(facing),
        light == null || facing == null ? List.of() : lights(light, stop, spot, facing, zone),
        light == null ? "" : direct(light, sky, stop),
        HazardWords.lines(
            session.hazards().of(spot.id()),
            spot.cautions(),
            light != null && light.needsSunCare()),
        fallback(session, stop.fallbackSpotId()));
  }

  private static String fallback(LedgerSession session, @Nullable Long spotId) {
    return spotId == null ? "" : session.spots().find(spotId).map(Spot::name).orElse("");
  }

  private List<PlanPart.Light> lights(
      StayLight light, KeptPlan.Stop stop, Spot spot, Bearing facing, ZoneId zone) {
    List<PlanPart.Light> lights = new ArrayList<>();
    Instant from = stop.shootFrom();
    for (StayLight.Span span : light.spans()) {
      Instant ends = span.window().to().toInstant();
      Instant until = ends.isBefore(stop.shootUntil()) ? ends : stop.shootUntil();
      Duration half = Duration.between(from, until).dividedBy(2);
      SunDirection halfWay = sun.direction(from.plus(half), spot.position());
      String first = SessionWords.hour(from, zone);
      String last = SessionWords.hour(until, zone);
      // What passes within a minute is not told.
      if (from.isBefore(until) && (!first.equals(last) || light.spans().size() == 1)) {
        lights.add(
            new PlanPart.Light(
                first + " to " + last,
                LightGlyph.of(span.light(), facing.turnToDeg(halfWay.azimuth())),
                Words.capital(span.light().label()),
                "sun " + Words.sun(halfWay)));
      }
      from = until;
    }
    return lights;
  }

  private static String direct(StayLight light, Sky sky, KeptPlan.Stop stop) {
    OffsetDateTime ends = light.directUntil();
    String words = FieldViews.direct(light, sky);
    return sky == Sky.OVERCAST || ends == null || !ends.toInstant().isBefore(stop.shootUntil())
        ? words
        : words
            + ", "
            + Words.count(
                (int)
                    Duration.between(ends.toInstant(), stop.shootUntil())
                        .plusSeconds(30)
                        .toMinutes(),
                "minute",
                "minutes")
            + " before the pictures do";
  }
}
