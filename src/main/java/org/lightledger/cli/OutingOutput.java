package org.lightledger.cli;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Rehearsal;
import org.lightledger.ask.ScoutingRun;
import org.lightledger.session.drive.Drive;
import org.lightledger.studio.Scouting;

/** Outings as JSON and as text. */
final class OutingOutput {
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private final Scouting scouting;

  OutingOutput(Scouting scouting) {
    this.scouting = scouting;
  }

  Map<String, @Nullable Object> json(ScoutingRun.Run run) {
    List<Map<String, @Nullable Object>> visits = new ArrayList<>();
    for (int i = 0; i < run.visits().size(); i++) {
      visits.add(json(run.visits().get(i), scouting.driveTo(run, i)));
    }
    return Json.fields()
        .put("day", run.day().toString())
        .put("meanSunGapDeg", Json.angle(run.meanGapDeg()))
        .put("visits", visits)
        .put("left", run.left().stream().map(left -> stop(left.plan()).spot().id()).toList())
        .put("leftWhy", run.left().stream().map(left -> left.why().label()).toList())
        .map();
  }

  private Map<String, @Nullable Object> json(ScoutingRun.Visit visit, @Nullable Drive drive) {
    Scouting.Stop stop = stop(visit.plan());
    Rehearsal.Moment light = visit.light();
    return Json.fields()
        .put("spotId", stop.spot().id())
        .put("name", stop.spot().name())
        .put("plannedFor", Json.time(local(stop.at(), stop)))
        .put("arrive", Json.time(local(visit.arrive(), stop)))
        .put("leave", Json.time(local(visit.leave(), stop)))
        .put("driveMinutes", drive == null ? null : drive.minutes())
        .put("driveSource", drive == null ? null : drive.source().name().toLowerCase(Locale.ROOT))
        .put("sunGapDeg", Json.angle(light.sunGapDeg()))
        .put("azimuthDifferenceDeg", Json.angle(light.azimuthDifferenceDeg()))
        .put("altitudeDifferenceDeg", Json.angle(light.altitudeDifferenceDeg()))
        .put("directSun", light.directSun())
        .put("difference", Rehearsal.difference(light))
        .map();
  }

  String text(List<ScoutingRun.Run> runs) {
    if (runs.isEmpty()) {
      return String.format(
          Locale.ROOT, "No day of that stretch has a moment in the same light as one planned.%n");
    }
    StringBuilder text = new StringBuilder();
    runs.forEach(run -> append(text, run));
    return text.toString();
  }

  private void append(StringBuilder text, ScoutingRun.Run run) {
    text.append(
        String.format(
            Locale.ROOT,
            "%s  %d of %d, mean sun gap %.1f°%n",
            run.day(),
            run.visits().size(),
            scouting.stops().size(),
            run.meanGapDeg()));
    for (int i = 0; i < run.visits().size(); i++) {
      ScoutingRun.Visit visit = run.visits().get(i);
      Scouting.Stop stop = stop(visit.plan());
      Drive drive = scouting.driveTo(run, i);
      if (drive != null) {
        text.append(
            String.format(
                Locale.ROOT, "  drive %d min, %s%n", drive.minutes(), drive.source().label()));
      }
      text.append(
          String.format(
              Locale.ROOT,
              "  %s to %s  %s (spot %d), sun gap %.1f°  %s%s%n",
              HOUR.format(local(visit.arrive(), stop)),
              HOUR.format(local(visit.leave(), stop)),
              stop.spot().name(),
              stop.spot().id(),
              visit.light().sunGapDeg(),
              Rehearsal.difference(visit.light()),
              reach(visit.light().directSun())));
    }
    for (ScoutingRun.Left left : run.left()) {
      Scouting.Stop stop = stop(left.plan());
      text.append(
          String.format(
              Locale.ROOT,
              "  left out: %s (spot %d), because %s%n",
              stop.spot().name(),
              stop.spot().id(),
              left.why().label()));
    }
  }

  private static String reach(@Nullable Boolean directSun) {
    return directSun == null
        ? " Direct sun: not known."
        : directSun ? " Direct sun." : " No direct sun.";
  }

  private Scouting.Stop stop(int plan) {
    return scouting.stops().get(plan);
  }

  private static OffsetDateTime local(Instant at, Scouting.Stop stop) {
    return at.atZone(stop.zone()).toOffsetDateTime();
  }
}
