package org.lightledger.shot;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Geodesy;

/**
 * Places a shot where the owner's other shots of the same minutes were taken, such as those of the
 * phone in the pocket.
 *
 * <p>The nearest placed shot before and the nearest after are asked, each within {@link
 * Limits#within}. When both are there they must agree within {@link Limits#agreeWithinM}, else the
 * photographer was walking and nothing is said; when only one side is there it is taken. A shot
 * that was itself placed by other shots is no witness. Immutable.
 */
public final class NearbyShots implements PlacesByTime {
  /**
   * How fast a photographer drifts about while shooting at one spot: 0.2 metres in a second, a
   * seventh of walking pace; own choice.
   */
  private static final double DRIFT_M_PER_S = 0.2;

  private final NavigableMap<Instant, List<PlacedShot>> byInstant = new TreeMap<>();
  private final Limits limits;

  /**
   * A shot that is a witness.
   *
   * @param instant when it was taken
   * @param position where it was taken
   */
  public record PlacedShot(Instant instant, Shot.Position position) {}

  /**
   * How far a witness reaches.
   *
   * @param within how long before or after a witness a shot may have been taken
   * @param agreeWithinM how far apart the witnesses before and after may be, metres
   */
  public record Limits(Duration within, double agreeWithinM) {
    /**
     * Checks the limits.
     *
     * @throws IllegalArgumentException when one is negative or not a number
     */
    public Limits {
      if (within.isNegative() || !(agreeWithinM >= 0)) {
        throw new IllegalArgumentException(
            "expected limits of 0 or more, found " + within + " and " + agreeWithinM + " m");
      }
    }

    /**
     * Own choice.
     *
     * @return five minutes, in which one changes the camera and not the place; 25 metres, the width
     *     of a spot and the error of two phones
     */
    public static Limits standard() {
      return new Limits(Duration.ofMinutes(5), 25);
    }
  }

  /**
   * Places by witnesses.
   *
   * @param shots shots whose time and place are known, in any order
   * @param limits how far each reaches
   */
  public NearbyShots(Collection<PlacedShot> shots, Limits limits) {
    this.limits = limits;
    for (PlacedShot shot : shots) {
      if (shot.position().source() != Shot.PositionSource.NEARBY_SHOT) {
        byInstant.computeIfAbsent(shot.instant(), instant -> new ArrayList<>()).add(shot);
      }
    }
  }

  @Override
  public Placement at(Instant instant) {
    if (byInstant.isEmpty()) {
      return new Placement.Refused(
          Placement.Reason.NOTHING_KNOWN, "No other shot has both a time and a place.");
    }
    List<PlacedShot> before = within(byInstant.floorEntry(instant), instant);
    List<PlacedShot> after = within(byInstant.ceilingEntry(instant), instant);
    List<PlacedShot> witnesses = new ArrayList<>(before);
    witnesses.addAll(after);
    return witnesses.isEmpty() ? noneNear(instant) : agreed(witnesses, instant, before, after);
  }

  private List<PlacedShot> within(
      Map.@Nullable Entry<Instant, List<PlacedShot>> entry, Instant instant) {
    return entry != null
            && Duration.between(entry.getKey(), instant).abs().compareTo(limits.within()) <= 0
        ? entry.getValue()
        : List.of();
  }

  private Placement agreed(
      List<PlacedShot> witnesses,
      Instant instant,
      List<PlacedShot> before,
      List<PlacedShot> after) {
    PlacedShot nearest =
        witnesses.stream()
            .min(
                Comparator.comparing(
                        (PlacedShot shot) -> Duration.between(shot.instant(), instant).abs())
                    .thenComparing(NearbyShots::errorM))
            .orElseThrow();
    double apartM =
        witnesses.stream()
            .mapToDouble(
                shot -> Geodesy.distanceM(nearest.position().point(), shot.position().point()))
            .max()
            .orElse(0);
    if (apartM > limits.agreeWithinM()) {
      return new Placement.Refused(
          Placement.Reason.DISAGREEMENT,
          String.format(
              Locale.ROOT,
              "The shots before and after were taken %.0f m apart; at most %.0f m are taken for one"
                  + " place.",
              apartM,
              limits.agreeWithinM()));
    }
    boolean bothSides = !before.isEmpty() && !after.isEmpty();
    double movedM =
        bothSides
            ? apartM
            : DRIFT_M_PER_S
                * Duration.between(nearest.instant(), instant).abs().toMillis()
                / 1000.0;
    return new Placement.Placed(
        new Shot.Position(
            nearest.position().point(),
            Shot.PositionSource.NEARBY_SHOT,
            Math.hypot(errorM(nearest), movedM),
            nearest.position().altitudeM()),
        bothSides
            ? new Placement.Between(before.get(0).instant(), after.get(0).instant())
            : new Placement.Nearest(nearest.instant()));
  }

  private Placement noneNear(Instant instant) {
    Instant earlier = byInstant.floorKey(instant);
    Instant later = byInstant.ceilingKey(instant);
    Placement.Reason reason =
        earlier == null
            ? Placement.Reason.TOO_EARLY
            : later == null ? Placement.Reason.TOO_LATE : Placement.Reason.GAP_TOO_LONG;
    return new Placement.Refused(
        reason,
        "No other shot with a place was taken within "
            + limits.within().toSeconds()
            + " s of this one.");
  }

  private static double errorM(PlacedShot shot) {
    Double errorM = shot.position().errorM();
    return errorM == null ? ShotRules.USUAL_POSITION_ERROR_M : errorM;
  }
}
