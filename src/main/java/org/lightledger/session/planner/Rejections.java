package org.lightledger.session.planner;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.drive.Drive;

/** Says of each candidate that is no stop what it lacked. */
final class Rejections {
  private final PlanRequest request;
  private final Problem problem;
  private final Solver solver;
  private final Solution solution;

  Rejections(Problem problem, Solver solver, Solution solution) {
    this.request = problem.request;
    this.problem = problem;
    this.solver = solver;
    this.solution = solution;
  }

  List<Rejected> all() {
    List<Rejected> rejected = new ArrayList<>();
    for (int i = 0; i < problem.count; i++) {
      int candidate = i;
      if (solution.stops().stream().noneMatch(stop -> stop.candidate() == candidate)) {
        rejected.add(of(candidate));
      }
    }
    for (PlanCandidate candidate : request.candidates()) {
      if (candidate.claim().state() == Claim.State.EXCLUDED) {
        rejected.add(rejected(candidate, Rule.EXCLUDED, null, "You excluded it."));
      }
    }
    rejected.sort(Comparator.comparingLong(Rejected::spotId));
    return rejected;
  }

  private Rejected of(int index) {
    PlanCandidate candidate = problem.candidates.get(index);
    long with = solver.bestWith(index);
    if (with == StayTable.NEVER) {
      return impossible(index, candidate);
    }
    long lost = solution.worth() - with;
    String cost =
        lost == 0
            ? "The best plan with it is worth as much; "
            : "The best plan with it is worth " + Words.lightMinutes(lost) + " less: ";
    return rejected(
        candidate, null, lost / (double) Worth.MILLI, cost + cause(index, candidate) + ".");
  }

  private Rejected impossible(int index, PlanCandidate candidate) {
    int stayMin = problem.stays[index].leastSteps() * problem.gridMin;
    if (!reachable(index)) {
      return rejected(candidate, Rule.DRIVE, null, "No drive leads there.");
    }
    if (!candidate.open().isEmpty()) {
      Claim locked = Claim.LOCKED;
      Problem open =
          new Problem(
              request.each(
                  other ->
                      other.spotId() == candidate.spotId()
                          ? other.alwaysOpen().with(locked)
                          : other));
      if (Solver.isFeasible(open)) {
        return rejected(
            candidate,
            Rule.OPENING,
            null,
            Words.sentence(
                hours(candidate)
                    + ": no stay of "
                    + Words.minutes(stayMin)
                    + " fits in besides the other rules."));
      }
    }
    return rejected(
        candidate,
        Rule.LENGTH,
        null,
        "With a stay of at least %s there and the drives no plan keeps within %s and the other rules."
            .formatted(Words.minutes(stayMin), Words.minutes(request.frame().lengthMin())));
  }

  private boolean reachable(int index) {
    if (problem.firstReadyMin[index] != Problem.NO_WAY) {
      return true;
    }
    for (int from = 0; from < problem.count; from++) {
      if (from != index && problem.readyMin[from][index] != Problem.NO_WAY) {
        return true;
      }
    }
    return false;
  }

  /** Why it costs worth, the strongest cause first. */
  private String cause(int index, PlanCandidate candidate) {
    Optional<WantedLight> wanted = WantedLight.of(request, candidate);
    if (wanted.isEmpty()) {
      return "it has none of the light that is wanted there in this time";
    }
    String begins = Words.hour(request.frame().at(wanted.get().fromMin()), request.frame().zone());
    if (!openInWantedLight(index)) {
      return hours(candidate) + ", its light begins " + begins;
    }
    String ends = Words.hour(request.frame().at(wanted.get().untilMin()), request.frame().zone());
    int lightMin = wanted.get().untilMin() - wanted.get().fromMin();
    if (lightMin < candidate.leastMin()) {
      return "its wanted light lasts from " + begins + " to " + ends + " only";
    }
    int nearestMin = nearestDriveMin(candidate);
    if (nearestMin >= longestDriveMin() && nearestMin > 0) {
      return "it is " + Words.minutes(nearestMin) + " by car from the nearest stop";
    }
    double leastWarmth =
        solution.stops().stream()
            .mapToDouble(stop -> problem.candidates.get(stop.candidate()).warmth())
            .min()
            .orElse(0);
    String light = "its wanted light lasts from " + begins + " to " + ends;
    return candidate.warmth() < leastWarmth
        ? light + ", and it fits the client's answers less than each stop"
        : light + ", in which the other stops earn more";
  }

  private boolean openInWantedLight(int index) {
    StayTable stays = problem.stays[index];
    for (int minute = 0; minute < request.frame().spanMin(); minute++) {
      if (stays.isOpen(minute, minute + 1) && stays.hasWantedLight(minute, minute + 1)) {
        return true;
      }
    }
    return false;
  }

  private String hours(PlanCandidate candidate) {
    List<String> hours = new ArrayList<>();
    for (OpenWindow window : candidate.open()) {
      boolean from = window.opens().isAfter(request.frame().earliestStart());
      boolean to = window.closes().isBefore(request.frame().latestEnd());
      String closes = "closes at " + Words.hour(window.closes(), request.frame().zone());
      String opens = "opens at " + Words.hour(window.opens(), request.frame().zone());
      hours.add(from && to ? opens + " and " + closes : from ? opens : closes);
    }
    return String.join(", ", hours);
  }

  /** To the nearest stop of the plan, either way. */
  private int nearestDriveMin(PlanCandidate candidate) {
    int nearest = Integer.MAX_VALUE;
    for (Solution.Stop stop : solution.stops()) {
      long stopId = problem.candidates.get(stop.candidate()).spotId();
      Optional<Drive> there = request.drives().between(stopId, candidate.spotId());
      Optional<Drive> back = request.drives().between(candidate.spotId(), stopId);
      nearest = Math.min(nearest, there.map(Drive::minutes).orElse(Integer.MAX_VALUE));
      nearest = Math.min(nearest, back.map(Drive::minutes).orElse(Integer.MAX_VALUE));
    }
    return nearest == Integer.MAX_VALUE ? 0 : nearest;
  }

  private int longestDriveMin() {
    int longest = 0;
    for (int i = 1; i < solution.stops().size(); i++) {
      long from = problem.candidates.get(solution.stops().get(i - 1).candidate()).spotId();
      long to = problem.candidates.get(solution.stops().get(i).candidate()).spotId();
      longest = Math.max(longest, request.drives().between(from, to).map(Drive::minutes).orElse(0));
    }
    return longest;
  }

  private static Rejected rejected(
      PlanCandidate candidate, @Nullable Rule rule, @Nullable Double lostLightMin, String lacked) {
    return new Rejected(candidate.spotId(), candidate.name(), rule, lostLightMin, lacked);
  }
}
