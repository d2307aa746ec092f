package org.lightledger.session.planner;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.drive.Drive;

/** Writes a solution out as a plan. */
final class PlanWriter {
  private final Problem problem;
  private final PlanRequest request;
  private final SessionFrame frame;
  private final Solution solution;

  PlanWriter(Problem problem, Solution solution) {
    this.problem = problem;
    this.request = problem.request;
    this.frame = request.frame();
    this.solution = solution;
  }

  /** A stop of the plan with all that is told of it, in minutes of the frame. */
  private record Told(
      PlanCandidate candidate,
      StayTable.Choice choice,
      StayLight light,
      int fromMin,
      int untilMin,
      @Nullable OutfitChange within) {}

  SessionPlan write(List<Rejected> rejected) {
    List<PlannedStop> stops = new ArrayList<>();
    Warnings warnings = new Warnings(request);
    Fallbacks fallbacks = new Fallbacks(request, inPlan());
    Instant free = frame.at(solution.callStep() * problem.gridMin);
    int outfit = 1;
    for (int i = 0; i < solution.stops().size(); i++) {
      Solution.Stop stop = solution.stops().get(i);
      Drive drive = drive(i);
      OutfitChange before = null;
      if (stop.change() != Solution.Change.NONE) {
        outfit++;
        before = changeBefore(i, free, outfit);
      }
      Instant left =
          before != null && stop.change() == Solution.Change.AT_THE_ONE_BEFORE
              ? before.until()
              : free;
      if (i > 0) {
        stops.set(i - 1, leaving(stops.get(i - 1), left));
      }
      Instant arrive = drive == null ? left : left.plus(Duration.ofMinutes(drive.minutes()));
      Told told = told(i, outfit);
      PlannedStop planned = stop(i, told, drive, arrive, before, outfit, fallbacks);
      outfit += told.within() == null ? 0 : 1;
      free = planned.shootUntil();
      stops.add(planned);
      warnings.of(planned, told.light(), told.candidate());
    }
    Instant call = frame.at(solution.callStep() * problem.gridMin);
    warnings.ofLength(call, free);
    return new SessionPlan(
        request.sky(),
        call,
        stops,
        free,
        solution.worth() / (double) Worth.MILLI,
        warnings.all(),
        rejected);
  }

  private List<Long> inPlan() {
    return solution.stops().stream()
        .map(stop -> problem.candidates.get(stop.candidate()).spotId())
        .toList();
  }

  private Told told(int index, int outfit) {
    Solution.Stop stop = solution.stops().get(index);
    PlanCandidate candidate = problem.candidates.get(stop.candidate());
    StayTable stays = problem.stays[stop.candidate()];
    boolean last = index == solution.stops().size() - 1;
    StayTable.Choice choice =
        stays.choose(new StayTable.Stay(stop.fromStep(), stop.steps(), stop.changedWithin(), last));
    int fromMin = stop.fromStep() * problem.gridMin;
    int untilMin =
        (stop.fromStep() + stays.busySteps(stop.steps(), stop.changedWithin())) * problem.gridMin;
    OutfitChange within = null;
    if (stop.changedWithin()) {
      int changeMin = fromMin + choice.splitSteps() * problem.gridMin;
      int changeUntilMin = changeMin + stays.busySteps(0, true) * problem.gridMin;
      within =
          new OutfitChange(
              frame.at(changeMin), frame.at(changeUntilMin), candidate.spotId(), outfit + 1);
    }
    StayLight light =
        new StayLight(frame, candidate.light(request.sky()), choice.facing(), fromMin, untilMin);
    return new Told(candidate, choice, light, fromMin, untilMin, within);
  }

  private @Nullable Drive drive(int index) {
    long to = problem.candidates.get(solution.stops().get(index).candidate()).spotId();
    if (index == 0) {
      return request.drives().fromMeeting(to).orElse(null);
    }
    long from = problem.candidates.get(solution.stops().get(index - 1).candidate()).spotId();
    return request.drives().between(from, to).orElseThrow();
  }

  private OutfitChange changeBefore(int index, Instant free, int toOutfit) {
    Solution.Stop stop = solution.stops().get(index);
    Duration change = Duration.ofMinutes(problem.changeMin());
    if (stop.change() == Solution.Change.AT_THE_ONE_BEFORE) {
      int before = solution.stops().get(index - 1).candidate();
      return new OutfitChange(
          free, free.plus(change), problem.candidates.get(before).spotId(), toOutfit);
    }
    Instant shootFrom = frame.at(stop.fromStep() * problem.gridMin);
    return new OutfitChange(
        shootFrom.minus(change),
        shootFrom,
        problem.candidates.get(stop.candidate()).spotId(),
        toOutfit);
  }

  private PlannedStop stop(
      int index,
      Told told,
      @Nullable Drive drive,
      Instant arrive,
      @Nullable OutfitChange before,
      int outfit,
      Fallbacks fallbacks) {
    PlanCandidate candidate = told.candidate();
    SpotSunlight.AlongFacing along =
        candidate.light(request.sky()).alongFacings().get(told.choice().facing());
    OutfitChange within = told.within();
    int exceptFrom = within == null ? 0 : minuteOf(within.from());
    int exceptUntil = within == null ? 0 : minuteOf(within.until());
    int wantedMin =
        told.light().wantedMin(candidate.weights(request.sky()), exceptFrom, exceptUntil);
    long worth =
        told.choice().worth()
            + Worth.warmth(candidate.warmth())
            - Worth.drive(drive == null ? 0 : drive.minutes());
    Instant until = frame.at(told.untilMin());
    return new PlannedStop(
        candidate.spotId(),
        candidate.name(),
        drive,
        arrive,
        before,
        frame.at(told.fromMin()),
        within,
        until,
        until,
        outfit,
        along.facing(),
        along.basis(),
        told.light().stretches(),
        told.light().directEnds().orElse(null),
        told.light().tier(),
        wantedMin,
        worth / (double) Worth.MILLI,
        why(index, told, wantedMin),
        fallbacks.of(candidate, told.light(), told.fromMin(), told.untilMin()).orElse(null));
  }

  private String why(int index, Told told, int wantedMin) {
    PlanCandidate candidate = told.candidate();
    int shootingMin = solution.stops().get(index).steps() * problem.gridMin;
    StringBuilder why = new StringBuilder();
    Claim claim = candidate.claim();
    if (claim.state() == Claim.State.LOCKED) {
      why.append("you locked it; ");
    }
    why.append(lights(told.light()));
    why.append(", which is wanted there for ")
        .append(
            wantedMin == shootingMin
                ? "all " + Words.minutes(shootingMin)
                : wantedMin + " of the " + Words.minutes(shootingMin));
    why.append(" (").append(told.light().tier().label()).append(")");
    LightWeights weights = candidate.weights(request.sky());
    if (weights != candidate.weights()) {
      why.append("; under clouds there is no light of a direction, and even light does");
    }
    told.light()
        .wantedUntilMin(weights)
        .ifPresent(
            end ->
                why.append("; the wanted light ends ")
                    .append(Words.hour(frame.at(end), frame.zone())));
    if (index == solution.stops().size() - 1 && told.light().endsWanted(weights)) {
      why.append("; the session ends in it");
    }
    return Words.sentence(why.append(".").toString());
  }

  private String lights(StayLight light) {
    List<String> parts =
        light.stretches().stream()
            .map(
                stretch ->
                    stretch.light().label()
                        + " from "
                        + Words.hour(stretch.from(), frame.zone())
                        + " to "
                        + Words.hour(stretch.until(), frame.zone()))
            .toList();
    return parts.isEmpty() ? "its light is not told" : String.join(", ", parts);
  }

  private int minuteOf(Instant instant) {
    return Math.toIntExact(Duration.between(frame.earliestStart(), instant).toMinutes());
  }

  private static PlannedStop leaving(PlannedStop stop, Instant leave) {
    return new PlannedStop(
        stop.spotId(),
        stop.name(),
        stop.drive(),
        stop.arrive(),
        stop.changeBefore(),
        stop.shootFrom(),
        stop.changeWithin(),
        stop.shootUntil(),
        leave,
        stop.outfit(),
        stop.facing(),
        stop.basis(),
        stop.lights(),
        stop.directEnds(),
        stop.tier(),
        stop.wantedMin(),
        stop.worthLightMin(),
        stop.why(),
        stop.fallback());
  }
}
