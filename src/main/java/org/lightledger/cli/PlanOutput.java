package org.lightledger.cli;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Sky;
import org.lightledger.session.drive.Drive;
import org.lightledger.session.planner.Fallback;
import org.lightledger.session.planner.LightStretch;
import org.lightledger.session.planner.OutfitChange;
import org.lightledger.session.planner.PlanOutcome;
import org.lightledger.session.planner.PlanRequest;
import org.lightledger.session.planner.PlannedStop;
import org.lightledger.session.planner.Planner;
import org.lightledger.session.planner.Refusal;
import org.lightledger.session.planner.Rejected;
import org.lightledger.session.planner.SessionPlan;

/** A plan as JSON and as text. */
final class PlanOutput {
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private final PlanRequest request;
  private final ZoneId zone;
  private final String cost;

  PlanOutput(PlanRequest request, String cost) {
    this.request = request;
    this.zone = request.frame().zone();
    this.cost = cost;
  }

  Map<String, @Nullable Object> json(PlanOutcome outcome) {
    if (outcome instanceof PlanOutcome.Refused refused) {
      return Json.fields()
          .put("plan", null)
          .put("refusals", refused.refusals().stream().map(PlanOutput::refusal).toList())
          .map();
    }
    SessionPlan plan = ((PlanOutcome.Planned) outcome).plan();
    return Json.fields()
        .put("sky", plan.sky().name().toLowerCase(Locale.ROOT))
        .put("callTime", time(plan.callTime()))
        .put("end", time(plan.end()))
        .put("worthLightMin", Json.rounded(plan.worthLightMin(), 1))
        .put("cost", cost.isEmpty() ? null : cost)
        .put("stops", plan.stops().stream().map(this::stop).toList())
        .put("warnings", plan.warnings())
        .put("rejected", plan.rejected().stream().map(PlanOutput::rejected).toList())
        .put("overcast", overcast(plan))
        .map();
  }

  private @Nullable List<String> overcast(SessionPlan plan) {
    return plan.sky() == Sky.OVERCAST ? null : Planner.overcast(request, plan).differs();
  }

  private Map<String, @Nullable Object> stop(PlannedStop stop) {
    Drive drive = stop.drive();
    Fallback fallback = stop.fallback();
    return Json.fields()
        .put("spotId", stop.spotId())
        .put("name", stop.name())
        .put("driveMinutes", drive == null ? null : drive.minutes())
        .put("driveSource", drive == null ? null : drive.source().name().toLowerCase(Locale.ROOT))
        .put("arrive", time(stop.arrive()))
        .put("shootFrom", time(stop.shootFrom()))
        .put("shootUntil", time(stop.shootUntil()))
        .put("leave", time(stop.leave()))
        .put("outfit", stop.outfit())
        .put("changeBefore", change(stop.changeBefore()))
        .put("changeWithin", change(stop.changeWithin()))
        .put("facingDeg", Json.angle(stop.facing().trueDeg()))
        .put("lights", stop.lights().stream().map(this::light).toList())
        .put("directEnds", stop.directEnds() == null ? null : time(stop.directEnds()))
        .put("tier", stop.tier().label())
        .put("why", stop.why())
        .put("fallbackSpotId", fallback == null ? null : fallback.spotId())
        .map();
  }

  private @Nullable Map<String, @Nullable Object> change(@Nullable OutfitChange change) {
    return change == null
        ? null
        : Json.fields()
            .put("spotId", change.spotId())
            .put("from", time(change.from()))
            .put("to", time(change.until()))
            .put("outfit", change.toOutfit())
            .map();
  }

  private Map<String, @Nullable Object> light(LightStretch light) {
    return Json.fields()
        .put("light", light.light().code())
        .put("from", time(light.from()))
        .put("to", time(light.until()))
        .map();
  }

  private static Map<String, @Nullable Object> refusal(Refusal refusal) {
    return Json.fields()
        .put("rule", refusal.rule().name().toLowerCase(Locale.ROOT))
        .put("found", refusal.found())
        .put("help", refusal.help())
        .map();
  }

  private static Map<String, @Nullable Object> rejected(Rejected rejected) {
    return Json.fields()
        .put("spotId", rejected.spotId())
        .put("name", rejected.name())
        .put("lostLightMin", Json.rounded(rejected.lostLightMin(), 1))
        .put("lacked", rejected.lacked())
        .map();
  }

  private @Nullable String time(Instant instant) {
    return Json.time(instant.atZone(zone).toOffsetDateTime());
  }

  String text(PlanOutcome outcome) {
    StringBuilder text = new StringBuilder();
    if (outcome instanceof PlanOutcome.Refused refused) {
      line(text, "No plan fits.");
      refused.refusals().forEach(one -> line(text, one.found() + " " + one.help()));
      return text.toString();
    }
    SessionPlan plan = ((PlanOutcome.Planned) outcome).plan();
    line(text, hour(plan.callTime()) + "  meet");
    for (PlannedStop stop : plan.stops()) {
      append(text, stop);
    }
    line(text, hour(plan.end()) + "  end");
    if (!cost.isEmpty()) {
      line(text, cost);
    }
    plan.warnings().forEach(warning -> line(text, "Mind: " + warning));
    plan.rejected().forEach(one -> line(text, "Not " + one.name() + ": " + one.lacked()));
    List<String> differs = overcast(plan);
    if (differs != null) {
      differs.forEach(difference -> line(text, "If overcast: " + difference));
    }
    return text.toString();
  }

  private void append(StringBuilder text, PlannedStop stop) {
    Drive drive = stop.drive();
    if (drive != null) {
      line(text, "       drive " + drive.minutes() + " min, " + drive.source().label());
    }
    line(
        text,
        hour(stop.arrive())
            + "  "
            + stop.name()
            + " (spot "
            + stop.spotId()
            + "): pictures "
            + hour(stop.shootFrom())
            + " to "
            + hour(stop.shootUntil())
            + ", look "
            + stop.facing().compassPoint()
            + String.format(Locale.ROOT, " (%.0f°)", stop.facing().trueDeg())
            + ", outfit "
            + stop.outfit()
            + " ["
            + stop.tier().label()
            + "]");
    for (LightStretch light : stop.lights()) {
      line(
          text,
          "       "
              + light.light().label()
              + " "
              + hour(light.from())
              + " to "
              + hour(light.until()));
    }
    append(text, stop.changeBefore());
    append(text, stop.changeWithin());
    line(text, "       " + stop.why());
  }

  private void append(StringBuilder text, @Nullable OutfitChange change) {
    if (change != null) {
      line(
          text,
          "       change to outfit "
              + change.toOutfit()
              + " "
              + hour(change.from())
              + " to "
              + hour(change.until())
              + " at spot "
              + change.spotId());
    }
  }

  private String hour(Instant instant) {
    return HOUR.format(instant.atZone(zone));
  }

  private static void line(StringBuilder text, String line) {
    text.append(line).append(System.lineSeparator());
  }
}
