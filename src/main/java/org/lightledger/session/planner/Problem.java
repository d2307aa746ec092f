package org.lightledger.session.planner;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.lightledger.session.drive.Drive;
import org.lightledger.session.drive.DriveTable;

/** A request in numbers: candidates by index, times in minutes or steps of the frame. */
final class Problem {
  /** No drive leads there. */
  static final int NO_WAY = -1;

  private static final int ANY = Integer.MIN_VALUE;

  final PlanRequest request;
  final List<PlanCandidate> candidates;
  final int count;
  final int gridMin;

  /** The last grid moment of the frame. */
  final int steps;

  final int lengthSteps;
  final int changes;
  final StayTable[] stays;

  /** Minutes from leaving one to being ready at another: driving and handling; or no way. */
  final int[][] readyMin;

  final int[] firstReadyMin;
  final long[][] driveCost;
  final long[] firstDriveCost;
  final int mustMask;

  /** For each candidate and step whether an outfit can be changed right after it, right before. */
  private final boolean[][] changeAfter;

  private final boolean[][] changeBefore;

  /** For each candidate the step at which shooting is to begin; {@link #ANY} for any. */
  private final int[] lockedStep;

  Problem(PlanRequest request) {
    this.request = request;
    this.candidates =
        request.candidates().stream()
            .filter(candidate -> candidate.claim().state() != Claim.State.EXCLUDED)
            .toList();
    this.count = candidates.size();
    SessionFrame frame = request.frame();
    this.gridMin = frame.gridMin();
    this.steps = frame.spanMin() / gridMin;
    this.lengthSteps = Math.min(steps, frame.lengthMin() / gridMin);
    this.changes = request.outfits().outfits() - 1;
    int lastGoodMin = StayTable.lastGoodMin(request);
    this.stays =
        candidates.stream()
            .map(candidate -> new StayTable(request, candidate, lastGoodMin))
            .toArray(StayTable[]::new);
    this.readyMin = new int[count][count];
    this.driveCost = new long[count][count];
    this.firstReadyMin = new int[count];
    this.firstDriveCost = new long[count];
    this.mustMask = drivesAndLocks();
    this.changeAfter = new boolean[count][steps + 1];
    this.changeBefore = new boolean[count][steps + 1];
    this.lockedStep = new int[count];
    for (int i = 0; i < count; i++) {
      Instant shootFrom = candidates.get(i).claim().shootFrom();
      lockedStep[i] = shootFrom == null ? ANY : stepFrom(shootFrom);
      for (int step = 0; step <= steps; step++) {
        int minute = step * gridMin;
        boolean changing = stays[i].changing();
        changeAfter[i][step] = changing && stays[i].isOpen(minute, minute + changeMin());
        changeBefore[i][step] = changing && stays[i].isOpen(minute - changeMin(), minute);
      }
    }
  }

  private int drivesAndLocks() {
    DriveTable drives = request.drives();
    int handlingMin = request.limits().handlingMin();
    int must = 0;
    for (int to = 0; to < count; to++) {
      long toId = candidates.get(to).spotId();
      if (candidates.get(to).claim().state() == Claim.State.LOCKED) {
        must |= 1 << to;
      }
      Optional<Drive> first = drives.fromMeeting(toId);
      firstDriveCost[to] = Worth.drive(first.map(Drive::minutes).orElse(0));
      firstReadyMin[to] =
          first.isEmpty() && drives.hasMeetingSpot()
              ? NO_WAY
              : first.map(Drive::minutes).orElse(0) + handlingMin;
      for (int from = 0; from < count; from++) {
        Optional<Drive> drive = drives.between(candidates.get(from).spotId(), toId);
        driveCost[from][to] = Worth.drive(drive.map(Drive::minutes).orElse(0));
        readyMin[from][to] = drive.map(found -> found.minutes() + handlingMin).orElse(NO_WAY);
      }
    }
    return must;
  }

  int changeMin() {
    return request.outfits().changeMin();
  }

  int stepsFor(int minutes) {
    return StayTable.ceil(minutes, gridMin);
  }

  /** Whether a candidate may be the stop at a place in the order. */
  boolean allowedAs(int candidate, int position) {
    Integer locked = candidates.get(candidate).claim().position();
    return locked == null || locked == position;
  }

  /** Whether shooting at a candidate may begin at a step. */
  boolean allowedFrom(int candidate, int fromStep) {
    return lockedStep[candidate] == ANY || lockedStep[candidate] == fromStep;
  }

  /** The first step that is not before an instant. */
  private int stepFrom(Instant instant) {
    long millis = Duration.between(request.frame().earliestStart(), instant).toMillis();
    return Math.toIntExact(-Math.floorDiv(-millis, gridMin * 60_000L));
  }

  /** Whether an outfit can be changed right after shooting at a stop ended. */
  boolean canChangeAfter(int candidate, int step) {
    return changeAfter[candidate][step];
  }

  /** Whether an outfit can be changed right before shooting at a stop begins. */
  boolean canChangeBefore(int candidate, int step) {
    return changeBefore[candidate][step];
  }
}
