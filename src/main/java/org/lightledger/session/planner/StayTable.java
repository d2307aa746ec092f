package org.lightledger.session.planner;

import java.util.Arrays;
import java.util.List;
import org.lightledger.light.LightClass;

/** What shooting at one candidate is worth, for every stretch of the grid. */
final class StayTable {
  /** No such stay. */
  static final long NEVER = Long.MIN_VALUE / 4;

  private final PlanCandidate candidate;
  private final SpotSunlight light;
  private final LightWeights weights;
  private final SessionFrame frame;
  private final int gridMin;
  private final int steps;
  private final int changeSteps;
  private final boolean changing;

  /** For each facing and minute of the frame, the worth of all minutes before. */
  private final long[][] sums;

  private final int lastGoodMin;
  private final int leastSteps;
  private final int leastWornSteps;
  private final int mostSteps;
  private final int lengths;

  /** By first step, length, change within and end, in this order. */
  private final long[] worth;

  /**
   * A stay's best facing and where in it the outfit is changed.
   *
   * @param facing index of the facing
   * @param splitSteps after so many steps of shooting the change begins; 0 for no change
   * @param worth what it is worth, with the finish if it is the last stop, without the warmth
   */
  record Choice(int facing, int splitSteps, long worth) {}

  /**
   * A stretch of shooting.
   *
   * @param from first step
   * @param steps steps of shooting
   * @param changed whether the outfit is changed within
   * @param last whether the session ends with it
   */
  record Stay(int from, int steps, boolean changed, boolean last) {}

  StayTable(PlanRequest request, PlanCandidate candidate, int lastGoodMin) {
    this.candidate = candidate;
    this.frame = request.frame();
    this.light = candidate.light(request.sky());
    this.weights = candidate.weights(request.sky());
    this.gridMin = frame.gridMin();
    this.steps = frame.spanMin() / gridMin;
    this.changeSteps = ceil(request.outfits().changeMin(), gridMin);
    this.changing = candidate.placeToChange() || request.outfits().tent();
    this.lastGoodMin = lastGoodMin;
    this.leastSteps = ceil(candidate.leastMin(), gridMin);
    this.leastWornSteps = Math.min(leastSteps, ceil(OutfitWish.LEAST_WORN_MIN, gridMin));
    this.mostSteps = Math.min(steps, Math.max(leastSteps, candidate.wantedMin() / gridMin));
    this.lengths = Math.max(0, mostSteps - leastSteps + 1);
    this.sums = sums();
    this.worth = worth();
  }

  static int ceil(int minutes, int gridMin) {
    return (minutes + gridMin - 1) / gridMin;
  }

  /** The latest minute of the frame up to which a wanted light lasts anywhere; 0 for none. */
  static int lastGoodMin(PlanRequest request) {
    int lastGood = 0;
    for (PlanCandidate candidate : request.candidates()) {
      SpotSunlight light = candidate.light(request.sky());
      for (SpotSunlight.AlongFacing along : light.alongFacings()) {
        for (int minute = request.frame().spanMin() - 1; minute >= lastGood; minute--) {
          int told = light.minuteOf(request.frame().at(minute));
          if (told >= 0
              && told < light.minutes()
              && candidate.weights(request.sky()).wants(along.minutes().get(told).light())) {
            lastGood = minute + 1;
          }
        }
      }
    }
    return lastGood;
  }

  int leastSteps() {
    return leastSteps;
  }

  int mostSteps() {
    return mostSteps;
  }

  boolean changing() {
    return changing;
  }

  /** How many steps one is busy there. */
  int busySteps(int shootingSteps, boolean changed) {
    return shootingSteps + (changed ? changeSteps : 0);
  }

  /** The worth of the best such stay; {@link #NEVER} when there is none. */
  long worth(int from, int shootingSteps, int changed, int last) {
    return worth[index(from, shootingSteps, changed) + last];
  }

  /** Whether it is open for all of a stretch, in minutes of the frame. */
  boolean isOpen(int fromMin, int toMin) {
    if (candidate.open().isEmpty()) {
      return true;
    }
    for (OpenWindow window : candidate.open()) {
      if (!window.opens().isAfter(frame.at(fromMin))
          && !window.closes().isBefore(frame.at(toMin))) {
        return true;
      }
    }
    return false;
  }

  /**
   * The best facing and place of the change; of equal ones that with the largest margin, and then
   * that which is nearest to the middle.
   */
  Choice choose(Stay stay) {
    Choice best = new Choice(-1, 0, NEVER);
    double bestMarginDeg = Double.NEGATIVE_INFINITY;
    for (int facing = 0; facing < sums.length; facing++) {
      double marginDeg = marginDeg(facing, stay);
      for (int split = firstSplit(stay); split <= lastSplit(stay); split++) {
        long value = value(facing, split, stay);
        boolean asGood = value == best.worth && marginDeg == bestMarginDeg;
        if (value > best.worth
            || (value == best.worth && marginDeg > bestMarginDeg)
            || (asGood && unevenness(split, stay) < unevenness(best.splitSteps, stay))) {
          best = new Choice(facing, split, value);
          bestMarginDeg = marginDeg;
        }
      }
    }
    return best;
  }

  private static int unevenness(int split, Stay stay) {
    return Math.abs(2 * split - stay.steps());
  }

  private int firstSplit(Stay stay) {
    return stay.changed() ? leastWornSteps : 0;
  }

  private int lastSplit(Stay stay) {
    return stay.changed() ? stay.steps() - leastWornSteps : 0;
  }

  /** Whether any minute of a stretch of the frame has a wanted light along any facing. */
  boolean hasWantedLight(int fromMin, int toMin) {
    return light.alongFacings().stream()
        .anyMatch(
            along -> {
              for (int minute = fromMin; minute < toMin; minute++) {
                if (weights.wants(lightAt(along, minute))) {
                  return true;
                }
              }
              return false;
            });
  }

  private LightClass lightAt(SpotSunlight.AlongFacing along, int minute) {
    int told = light.minuteOf(frame.at(minute));
    return told >= 0 && told < light.minutes()
        ? along.minutes().get(told).light()
        : LightClass.DARK;
  }

  private long[][] sums() {
    List<SpotSunlight.AlongFacing> facings = light.alongFacings();
    int spanMin = frame.spanMin();
    int offsetMin = light.minuteOf(frame.earliestStart());
    long[][] all = new long[facings.size()][spanMin + 1];
    for (int facing = 0; facing < all.length; facing++) {
      List<SpotSunlight.Minute> minutes = facings.get(facing).minutes();
      for (int minute = 0; minute < spanMin; minute++) {
        int told = minute + offsetMin;
        long one =
            told >= 0 && told < minutes.size() ? Worth.minute(minutes.get(told), weights) : 0;
        all[facing][minute + 1] = all[facing][minute] + one;
      }
    }
    return all;
  }

  private int index(int from, int shootingSteps, int changed) {
    return ((from * lengths + shootingSteps - leastSteps) * 2 + changed) * 2;
  }

  private long[] worth() {
    long[] table = new long[(steps + 1) * lengths * 4];
    Arrays.fill(table, NEVER);
    for (int from = 0; from <= steps; from++) {
      for (int length = leastSteps; length <= mostSteps; length++) {
        for (int changed = 0; changed <= 1; changed++) {
          int until = from + busySteps(length, changed == 1);
          if (until <= steps
              && isOpen(from * gridMin, until * gridMin)
              && (changed == 0 || (changing && length >= 2 * leastWornSteps))) {
            int at = index(from, length, changed);
            table[at] = best(new Stay(from, length, changed == 1, false));
            table[at + 1] = best(new Stay(from, length, changed == 1, true));
          }
        }
      }
    }
    return table;
  }

  private long best(Stay stay) {
    long best = NEVER;
    for (int facing = 0; facing < sums.length; facing++) {
      for (int split = firstSplit(stay); split <= lastSplit(stay); split++) {
        best = Math.max(best, value(facing, split, stay));
      }
    }
    return best;
  }

  private long value(int facing, int split, Stay stay) {
    long[] sum = sums[facing];
    int from = stay.from() * gridMin;
    int until = (stay.from() + busySteps(stay.steps(), stay.changed())) * gridMin;
    long value = sum[until] - sum[from];
    if (stay.changed()) {
      int change = from + split * gridMin;
      value -= sum[change + changeSteps * gridMin] - sum[change];
    }
    return stay.last()
        ? value + Worth.finish(sum[until] - sum[until - 1], lastGoodMin - until)
        : value;
  }

  /** The mean margin over a stay, degrees. */
  private double marginDeg(int facing, Stay stay) {
    List<SpotSunlight.Minute> minutes = light.alongFacings().get(facing).minutes();
    int start = light.minuteOf(frame.at(stay.from() * gridMin));
    int end = start + busySteps(stay.steps(), stay.changed()) * gridMin;
    double sumDeg = 0;
    for (int minute = Math.max(0, start); minute < Math.min(end, minutes.size()); minute++) {
      sumDeg += minutes.get(minute).marginDeg();
    }
    return sumDeg / Math.max(1, end - start);
  }
}
