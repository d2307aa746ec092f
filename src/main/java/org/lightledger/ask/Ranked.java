package org.lightledger.ask;

import java.time.OffsetDateTime;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.skyline.Clearance;
import org.lightledger.spot.Observation;

/** A candidate with the evidence for it. */
record Ranked(Candidate candidate, Answer.Tier tier, Answer.@Nullable NearestShot nearest) {
  /** A shot shows the same view when it looks at most this far beside the facing; degrees. */
  static final double SAME_VIEW_TURN_DEG = 30;

  static final Comparator<Ranked> BEST_FIRST =
      Comparator.comparing(Ranked::tier)
          .thenComparing(
              Comparator.comparingDouble((Ranked ranked) -> ranked.candidate.light().marginDeg())
                  .reversed())
          .thenComparing(ranked -> ranked.candidate.spot().id())
          .thenComparing(ranked -> ranked.candidate.facing().trueDeg());

  static Ranked of(Candidate candidate, List<Observation> observations) {
    Answer.NearestShot sameView = null;
    Answer.NearestShot any = null;
    for (Observation observation : observations) {
      double gapDeg = candidate.sun().gapDeg(observation.sun());
      Answer.NearestShot shot = new Answer.NearestShot(observation.shotId(), gapDeg);
      any = nearer(any, shot);
      if (observation.facing() != null
          && Math.abs(candidate.facing().turnToDeg(observation.facing())) <= SAME_VIEW_TURN_DEG) {
        sameView = nearer(sameView, shot);
      }
    }
    if (sameView != null && sameView.sunGapDeg() <= Answer.LIKE_LIGHT_GAP_DEG) {
      return new Ranked(candidate, Answer.Tier.SCOUTED, sameView);
    }
    return new Ranked(
        candidate,
        candidate.light().modelled() ? Answer.Tier.MODELLED : Answer.Tier.GEOMETRY,
        sameView != null ? sameView : any);
  }

  private static Answer.NearestShot nearer(
      Answer.@Nullable NearestShot kept, Answer.NearestShot other) {
    return kept == null || other.sunGapDeg() < kept.sunGapDeg() ? other : kept;
  }

  Answer answer(WindowFinder windows, Sky sky) {
    WindowFinder.View view = candidate.view(sky);
    OffsetDateTime at = candidate.instant().atZone(view.zone()).toOffsetDateTime();
    SpotLight light = candidate.light();
    Clearance clearance = light.clearance();
    OffsetDateTime directUntil =
        Boolean.TRUE.equals(light.directSun())
            ? windows.directUntil(candidate.instant(), view)
            : null;
    return new Answer(
        candidate.spot(),
        candidate.facing(),
        candidate.basis(),
        at,
        light.light(),
        candidate.sun(),
        candidate.relativeBearingDeg(),
        light.marginDeg(),
        light.directSun(),
        clearance == null ? null : candidate.sun().apparentAltitudeDeg() - clearance.marginDeg(),
        clearance,
        directUntil,
        windows.around(candidate.instant(), view),
        tier,
        nearest,
        candidate.days(),
        Reasons.of(candidate, at, directUntil, sky, tier, nearest));
  }
}
