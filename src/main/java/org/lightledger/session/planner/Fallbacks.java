package org.lightledger.session.planner;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Sky;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.light.LightClass;

/** Finds for each stop the nearest other spot that can stand in for it. */
final class Fallbacks {
  private final PlanRequest request;
  private final List<Long> inPlan;

  Fallbacks(PlanRequest request, List<Long> inPlan) {
    this.request = request;
    this.inPlan = inPlan;
  }

  /**
   * The nearest spot, along a straight line, that is under cover or has for most of the stay the
   * light that the stop has. Spots of the plan and excluded ones do not count, nor does a candidate
   * that is closed then.
   */
  Optional<Fallback> of(PlanCandidate stop, StayLight light, int fromMin, int untilMin) {
    LightClass wanted = light.mostly();
    Fallback nearest = null;
    for (PlanCandidate other : request.candidates()) {
      if (!inPlan.contains(other.spotId())
          && other.claim().state() != Claim.State.EXCLUDED
          && isOpen(other, fromMin, untilMin)
          && like(other.light(request.sky()), wanted, fromMin, untilMin)) {
        nearest =
            nearer(nearest, fallback(stop, other.spotId(), other.name(), other.place(), false));
      }
    }
    for (Spare spare : request.spares()) {
      SpotSunlight clear = spare.clear();
      boolean like =
          request.sky() == Sky.CLEAR && clear != null && like(clear, wanted, fromMin, untilMin);
      if (!inPlan.contains(spare.spotId()) && (spare.underCover() || like)) {
        nearest =
            nearer(
                nearest,
                fallback(stop, spare.spotId(), spare.name(), spare.place(), spare.underCover()));
      }
    }
    return Optional.ofNullable(nearest);
  }

  private Fallback fallback(
      PlanCandidate stop, long spotId, String name, GeoPoint place, boolean underCover) {
    return new Fallback(
        spotId,
        name,
        Geodesy.distanceM(stop.place(), place),
        request.drives().between(stop.spotId(), spotId).orElse(null),
        underCover);
  }

  private static Fallback nearer(@Nullable Fallback kept, Fallback other) {
    return kept == null || other.distanceM() < kept.distanceM() ? other : kept;
  }

  private boolean isOpen(PlanCandidate candidate, int fromMin, int untilMin) {
    return candidate.open().isEmpty()
        || candidate.open().stream()
            .anyMatch(
                window ->
                    !window.opens().isAfter(request.frame().at(fromMin))
                        && !window.closes().isBefore(request.frame().at(untilMin)));
  }

  private boolean like(SpotSunlight light, @Nullable LightClass wanted, int fromMin, int untilMin) {
    for (int facing = 0; facing < light.alongFacings().size(); facing++) {
      StayLight there = new StayLight(request.frame(), light, facing, fromMin, untilMin);
      if (wanted != null && there.mostly() == wanted) {
        return true;
      }
    }
    return false;
  }
}
