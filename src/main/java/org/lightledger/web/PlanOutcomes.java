package org.lightledger.web;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.session.drive.Drive;
import org.lightledger.session.planner.Fallback;
import org.lightledger.session.planner.LightStretch;
import org.lightledger.session.planner.OutfitChange;
import org.lightledger.session.planner.PlanCandidate;
import org.lightledger.session.planner.PlanOutcome;
import org.lightledger.session.planner.PlanRequest;
import org.lightledger.session.planner.PlannedStop;
import org.lightledger.session.planner.SessionPlan;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.web.chart.LightGlyph;

/** Shows what came of planning. */
final class PlanOutcomes {
  private final ZoneId zone;
  private final SunEphemeris sun;
  private final Map<Long, GeoPoint> places;
  private final Function<List<Long>, String> toOrder;

  /** Shows what came of a request; the function tells where another order leads. */
  PlanOutcomes(PlanRequest request, SunEphemeris sun, Function<List<Long>, String> toOrder) {
    this.zone = request.frame().zone();
    this.sun = sun;
    this.places =
        request.candidates().stream()
            .collect(Collectors.toMap(PlanCandidate::spotId, PlanCandidate::place));
    this.toOrder = toOrder;
  }

  PlanPage.Outcome show(PlanOutcome outcome, String said) {
    if (outcome instanceof PlanOutcome.Refused refused) {
      return new PlanPage.Outcome(
          said,
          refused.refusals().stream()
              .map(one -> new PlanPage.Reason(one.found(), one.help()))
              .toList(),
          "",
          "",
          List.of(),
          List.of(),
          List.of());
    }
    SessionPlan plan = ((PlanOutcome.Planned) outcome).plan();
    List<PlanPage.Stop> stops = new ArrayList<>();
    for (int i = 0; i < plan.stops().size(); i++) {
      stops.add(stop(plan, i));
    }
    return new PlanPage.Outcome(
        said.isEmpty()
            ? String.format(
                Locale.ROOT,
                "Worth %.0f light minutes: minutes of wanted light, as far as they can be trusted,"
                    + " less the driving.",
                plan.worthLightMin())
            : said,
        List.of(),
        SessionWords.hour(plan.callTime(), zone),
        SessionWords.hour(plan.end(), zone),
        stops,
        plan.warnings(),
        plan.rejected().stream()
            .map(one -> new PlanPage.Reason(one.name(), one.lacked()))
            .toList());
  }

  private PlanPage.Stop stop(SessionPlan plan, int index) {
    PlannedStop stop = plan.stops().get(index);
    Drive drive = stop.drive();
    Fallback fallback = stop.fallback();
    return new PlanPage.Stop(
        stop.spotId(),
        stop.name(),
        drive == null
            ? ""
            : "Drive "
                + Words.count(drive.minutes(), "minute", "minutes")
                + ", "
                + drive.source().label(),
        SessionWords.hour(stop.arrive(), zone),
        SessionWords.hour(stop.leave(), zone),
        SessionWords.hour(stop.shootFrom(), zone)
            + " to "
            + SessionWords.hour(stop.shootUntil(), zone),
        outfit(plan, stop),
        Words.bearing(stop.facing()),
        stop.lights().stream().map(light -> light(light, stop)).toList(),
        stop.directEnds() == null ? "" : SessionWords.hour(stop.directEnds(), zone),
        stop.tier().label(),
        stop.why(),
        fallback == null
            ? ""
            : fallback.name()
                + String.format(Locale.ROOT, ", %.1f km away", fallback.distanceM() / 1000)
                + (fallback.underCover() ? ", under cover" : ", in like light"),
        moved(plan, index, -1),
        moved(plan, index, 1));
  }

  private String outfit(SessionPlan plan, PlannedStop stop) {
    StringBuilder text = new StringBuilder("Outfit " + stop.outfit());
    OutfitChange before = stop.changeBefore();
    OutfitChange within = stop.changeWithin();
    if (before != null) {
      text.append(", changed ")
          .append(
              before.spotId() == stop.spotId() ? "here" : "before leaving " + name(plan, before))
          .append(hours(before));
    }
    if (within != null) {
      text.append("; change to outfit ").append(within.toOutfit()).append(hours(within));
    }
    return text.toString();
  }

  private String hours(OutfitChange change) {
    return " from "
        + SessionWords.hour(change.from(), zone)
        + " to "
        + SessionWords.hour(change.until(), zone);
  }

  private static String name(SessionPlan plan, OutfitChange change) {
    return plan.stops().stream()
        .filter(stop -> stop.spotId() == change.spotId())
        .map(PlannedStop::name)
        .findFirst()
        .orElse("the stop before");
  }

  private PlanPage.Light light(LightStretch stretch, PlannedStop stop) {
    LightClass light = stretch.light();
    GeoPoint place = Objects.requireNonNull(places.get(stop.spotId()), "a stop is a candidate");
    return new PlanPage.Light(
        LightGlyph.of(
            light, stop.facing().turnToDeg(sun.direction(stretch.from(), place).azimuth())),
        Words.capital(light.label()),
        SessionWords.hour(stretch.from(), zone)
            + " to "
            + SessionWords.hour(stretch.until(), zone));
  }

  private String moved(SessionPlan plan, int index, int by) {
    int to = index + by;
    if (to < 0 || to >= plan.stops().size()) {
      return "";
    }
    List<Long> order = new ArrayList<>(plan.order());
    Collections.swap(order, index, to);
    return toOrder.apply(order);
  }
}
