package org.lightledger.shot.track;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Geodesy;
import org.lightledger.shot.Placement;
import org.lightledger.shot.Shot;

/** Segments that follow each other in time without overlap, as one receiver writes them. */
final class TrackLane {
  /**
   * Error of a fix that states none, metres: twice that of a phone under open sky ({@link
   * GpxReader#ERROR_PER_DILUTION_M}), because receivers are carried in pockets; own choice.
   */
  static final double UNSTATED_ERROR_M = 10;

  /**
   * How fast a walker leaves the last known place, metres in a second; common practice, no source.
   */
  static final double WALKING_M_PER_S = 1.4;

  private static final double NANOS_PER_S = 1e9;

  private final List<TrackSegment> segments;
  private final TrackLimits limits;

  private TrackLane(List<TrackSegment> segments, TrackLimits limits) {
    this.segments = segments;
    this.limits = limits;
  }

  /**
   * Lays segments out in as few lanes as hold them without overlap. A segment joins the lane that
   * ended last before it begins.
   */
  static List<TrackLane> layOut(List<TrackSegment> segments, TrackLimits limits) {
    List<TrackSegment> inOrder = new ArrayList<>(segments);
    inOrder.sort(Comparator.comparing(TrackSegment::start).thenComparing(TrackSegment::end));
    List<TrackLane> lanes = new ArrayList<>();
    for (TrackSegment segment : inOrder) {
      lanes.stream()
          .filter(lane -> !lane.end().isAfter(segment.start()))
          .max(Comparator.comparing(TrackLane::end))
          .orElseGet(
              () -> {
                TrackLane lane = new TrackLane(new ArrayList<>(), limits);
                lanes.add(lane);
                return lane;
              })
          .segments
          .add(segment);
    }
    return lanes;
  }

  private Instant end() {
    return segments.get(segments.size() - 1).end();
  }

  /** A fix of the lane, by the places of its segment in the lane and of itself in the segment. */
  private record Fix(TrackSegment segment, int segmentIndex, int index) {
    Instant instant() {
      return segment.instant(index);
    }

    TrackPoint point() {
      return segment.point(index);
    }
  }

  /** Where this lane places an instant, and how long the nearest fix lies away. */
  record Answer(Placement placement, Duration away) {}

  Answer at(Instant instant) {
    Fix before = lastAtOrBefore(instant);
    if (before == null) {
      TrackSegment first = segments.get(0);
      return outside(
          instant, new Fix(first, 0, 0), Placement.Reason.TOO_EARLY, "before the track log begins");
    }
    if (before.instant().equals(instant)) {
      return new Answer(onFix(before), Duration.ZERO);
    }
    Fix after = following(before);
    if (after == null) {
      return outside(instant, before, Placement.Reason.TOO_LATE, "after the track log ends");
    }
    return inGap(instant, before, after);
  }

  private @Nullable Fix lastAtOrBefore(Instant instant) {
    int low = -1;
    int high = segments.size() - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (segments.get(middle).start().isAfter(instant)) {
        high = middle - 1;
      } else {
        low = middle;
      }
    }
    if (low < 0) {
      return null;
    }
    TrackSegment segment = segments.get(low);
    return new Fix(segment, low, segment.lastAtOrBefore(instant));
  }

  private @Nullable Fix following(Fix fix) {
    if (fix.index() + 1 < fix.segment().size()) {
      return new Fix(fix.segment(), fix.segmentIndex(), fix.index() + 1);
    }
    int next = fix.segmentIndex() + 1;
    return next < segments.size() ? new Fix(segments.get(next), next, 0) : null;
  }

  /** Several fixes at one time can not all be right: their distance is an error of each. */
  private Placement onFix(Fix fix) {
    TrackPoint last = fix.point();
    double spreadM = 0;
    for (int i = fix.segment().firstAtTimeOf(fix.index()); i < fix.index(); i++) {
      spreadM = Math.max(spreadM, Geodesy.distanceM(fix.segment().place(i), last.point()));
    }
    if (spreadM > limits.widestGapM()) {
      return new Placement.Refused(
          Placement.Reason.DISAGREEMENT,
          String.format(
              Locale.ROOT,
              "The track log has points %.0f m apart at the very time of the shot.",
              spreadM));
    }
    return placed(
        last,
        last.altitudeM(),
        Math.hypot(errorM(last), spreadM),
        new Placement.Between(last.instant(), last.instant()));
  }

  private Answer inGap(Instant instant, Fix before, Fix after) {
    Duration gap = Duration.between(before.instant(), after.instant());
    TrackPoint from = before.point();
    TrackPoint to = after.point();
    double apartM = Geodesy.distanceM(from.point(), to.point());
    Duration sinceBefore = Duration.between(from.instant(), instant);
    Duration untilAfter = Duration.between(instant, to.instant());
    boolean beforeIsNearer = sinceBefore.compareTo(untilAfter) <= 0;
    Fix nearest = beforeIsNearer ? before : after;
    if (gap.compareTo(limits.longestGap()) > 0) {
      return outside(
          instant,
          nearest,
          Placement.Reason.GAP_TOO_LONG,
          "from the nearest point, in a gap of "
              + inWords(gap)
              + " of the track log (up to "
              + inWords(limits.longestGap())
              + " is bridged)");
    }
    if (apartM > limits.widestGapM()) {
      return outside(
          instant,
          nearest,
          Placement.Reason.GAP_TOO_WIDE,
          String.format(
              Locale.ROOT,
              "from the nearest point, in a gap of %.0f m of the track log (up to %.0f m is"
                  + " bridged)",
              apartM,
              limits.widestGapM()));
    }
    double part = sinceBefore.toNanos() / (double) gap.toNanos();
    Double altitudeM =
        from.altitudeM() == null || to.altitudeM() == null
            ? null
            : Double.valueOf(from.altitudeM() + part * (to.altitudeM() - from.altitudeM()));
    double fixErrorM = errorM(from) + part * (errorM(to) - errorM(from));
    TrackPoint between =
        new TrackPoint(
            instant, Geodesy.between(from.point(), to.point(), part), altitudeM, fixErrorM);
    return new Answer(
        placed(
            between,
            altitudeM,
            Math.hypot(fixErrorM, Math.min(part, 1 - part) * apartM),
            new Placement.Between(from.instant(), to.instant())),
        beforeIsNearer ? sinceBefore : untilAfter);
  }

  private Answer outside(Instant instant, Fix nearest, Placement.Reason reason, String where) {
    Duration away = Duration.between(nearest.instant(), instant).abs();
    if (away.compareTo(limits.farthestOutside()) > 0) {
      return new Answer(
          new Placement.Refused(
              reason,
              "The shot was taken "
                  + inWords(away)
                  + " "
                  + where
                  + "; at most "
                  + inWords(limits.farthestOutside())
                  + " is allowed."),
          away);
    }
    TrackPoint point = nearest.point();
    double walkedM = WALKING_M_PER_S * away.toNanos() / NANOS_PER_S;
    return new Answer(
        placed(
            point,
            point.altitudeM(),
            Math.hypot(errorM(point), walkedM),
            new Placement.Nearest(point.instant())),
        away);
  }

  private static Placement placed(
      TrackPoint point, @Nullable Double altitudeM, double errorM, Placement.Basis basis) {
    return new Placement.Placed(
        new Shot.Position(point.point(), Shot.PositionSource.TRACK, errorM, altitudeM), basis);
  }

  private static double errorM(TrackPoint point) {
    Double errorM = point.errorM();
    return errorM == null ? UNSTATED_ERROR_M : errorM;
  }

  /** Two days and more in days, two hours in hours, two minutes in minutes; rounded down. */
  private static String inWords(Duration duration) {
    if (duration.toDays() >= 2) {
      return duration.toDays() + " days";
    }
    if (duration.toHours() >= 2) {
      return duration.toHours() + " h";
    }
    return duration.toMinutes() >= 2 ? duration.toMinutes() + " min" : duration.toSeconds() + " s";
  }
}
