package org.lightledger.shot.track;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.lightledger.geo.Geodesy;
import org.lightledger.shot.Placement;
import org.lightledger.shot.PlacesByTime;
import org.lightledger.shot.Shot;

/**
 * Where the photographer was by track logs: along the geodesic between two fixes, at a speed that
 * does not change, where the gap between them is within the {@link TrackLimits}; at the nearest fix
 * for a short time beyond; else refused. A gap between two segments is treated as one within a
 * segment.
 *
 * <p>Several logs may be given, and may overlap. Where several place a shot, the one that lies
 * between two fixes wins over one that does not, then the smaller error wins; logs that contradict
 * each other place nothing.
 *
 * <p>The error of a place is that of the fixes, and with it: between two fixes, the way to the
 * nearer one in time, for somebody who stood still there; beyond a fix, the way that one walks in
 * the time; and the distance to where another log places the shot. Errors that do not depend on
 * each other are added in quadrature.
 *
 * <p>Immutable; safe for use by several threads.
 */
public final class TrackPlaces implements PlacesByTime {
  private final List<TrackLane> lanes;
  private final TrackLimits limits;

  /**
   * Places by logs.
   *
   * @param logs in any order
   * @param limits how far they are trusted
   */
  public TrackPlaces(Collection<TrackLog> logs, TrackLimits limits) {
    this.lanes =
        TrackLane.layOut(logs.stream().flatMap(log -> log.segments().stream()).toList(), limits);
    this.limits = limits;
  }

  @Override
  public Placement at(Instant instant) {
    List<TrackLane.Answer> answers = lanes.stream().map(lane -> lane.at(instant)).toList();
    List<Placement.Placed> placed = new ArrayList<>();
    for (TrackLane.Answer answer : answers) {
      if (answer.placement() instanceof Placement.Placed found) {
        placed.add(found);
      }
    }
    return placed.isEmpty() ? refusal(answers) : best(placed);
  }

  private static Placement refusal(List<TrackLane.Answer> answers) {
    return answers.stream()
        .min(Comparator.comparing(TrackLane.Answer::away))
        .map(TrackLane.Answer::placement)
        .orElseGet(
            () ->
                new Placement.Refused(
                    Placement.Reason.NOTHING_KNOWN,
                    "The track log has no point with both a time and a place."));
  }

  private Placement best(List<Placement.Placed> placed) {
    Placement.Placed best =
        placed.stream()
            .min(
                Comparator.comparing(
                        (Placement.Placed place) -> place.basis() instanceof Placement.Nearest)
                    .thenComparing(TrackPlaces::errorM))
            .orElseThrow();
    double apartM = 0;
    for (Placement.Placed other : placed) {
      boolean asGood =
          best.basis() instanceof Placement.Nearest || other.basis() instanceof Placement.Between;
      if (asGood) {
        apartM =
            Math.max(apartM, Geodesy.distanceM(best.position().point(), other.position().point()));
      }
    }
    if (apartM > limits.greatestDisagreementM()) {
      return new Placement.Refused(
          Placement.Reason.DISAGREEMENT,
          String.format(
              Locale.ROOT,
              "The track logs place the shot %.0f m apart; at most %.0f m is allowed. Leave out the"
                  + " one that the photographer did not carry.",
              apartM,
              limits.greatestDisagreementM()));
    }
    Shot.Position position = best.position();
    return new Placement.Placed(
        new Shot.Position(
            position.point(),
            position.source(),
            Math.hypot(errorM(best), apartM),
            position.altitudeM()),
        best.basis());
  }

  private static double errorM(Placement.Placed placed) {
    Double errorM = placed.position().errorM();
    return errorM == null ? Double.POSITIVE_INFINITY : errorM;
  }
}
