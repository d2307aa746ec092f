package org.lightledger.web;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Rehearsal;
import org.lightledger.ask.ScoutingRun;
import org.lightledger.session.drive.Drive;
import org.lightledger.studio.Scouting;

/** Shows outings. */
final class ScoutingRunViews {
  private final Scouting scouting;

  ScoutingRunViews(Scouting scouting) {
    this.scouting = scouting;
  }

  ScoutingRunPage.Outing outing(ScoutingRun.Run run) {
    List<ScoutingRunPage.Visit> visits = new ArrayList<>();
    for (int i = 0; i < run.visits().size(); i++) {
      visits.add(visit(run.visits().get(i), scouting.driveTo(run, i)));
    }
    return new ScoutingRunPage.Outing(
        Words.day(run.day()),
        (run.left().isEmpty() ? "all of them" : visits.size() + " of " + scouting.stops().size())
            + ", mean sun gap "
            + Words.fineDegrees(run.meanGapDeg()),
        visits,
        run.left().stream().map(this::left).toList());
  }

  private ScoutingRunPage.Visit visit(ScoutingRun.Visit visit, @Nullable Drive drive) {
    Scouting.Stop stop = scouting.stops().get(visit.plan());
    OffsetDateTime middle = visit.light().at();
    SunWords words = SunWords.of(stop.skyline(), visit.light().sun());
    return new ScoutingRunPage.Visit(
        drive == null
            ? ""
            : "Drive "
                + Words.count(drive.minutes(), "minute", "minutes")
                + ", "
                + drive.source().label(),
        drive == null ? "" : drive.reason(),
        Words.window(local(visit.arrive(), stop), local(visit.leave(), stop))
            + (clocksDiffer() ? " (" + stop.zone().getId() + ")" : ""),
        "/spots/" + stop.spot().id(),
        stop.spot().name(),
        Words.moment(local(stop.at(), stop)),
        Words.fineDegrees(visit.light().sunGapDeg()),
        Rehearsal.difference(visit.light()),
        words.kind(),
        Words.capital(words.word()),
        "/spots/"
            + stop.spot().id()
            + "?day="
            + middle.toLocalDate()
            + "&at="
            + Words.hour(middle)
            + "#sun-head");
  }

  private ScoutingRunPage.Left left(ScoutingRun.Left left) {
    Scouting.Stop stop = scouting.stops().get(left.plan());
    return new ScoutingRunPage.Left(
        stop.spot().name() + ", " + Words.moment(local(stop.at(), stop)), left.why().label());
  }

  /** Whose clock the free hours are on; "" when all spots have one. */
  String clock() {
    Scouting.Stop first = scouting.stops().get(0);
    return clocksDiffer()
        ? "on the clock of " + first.spot().name() + ", " + first.zone().getId()
        : "";
  }

  private boolean clocksDiffer() {
    return scouting.stops().stream().map(Scouting.Stop::zone).distinct().count() > 1;
  }

  private static OffsetDateTime local(Instant at, Scouting.Stop stop) {
    return at.atZone(stop.zone()).toOffsetDateTime();
  }
}
