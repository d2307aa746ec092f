package org.lightledger.ask;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.skyline.Clearance;
import org.lightledger.spot.Observation;

/**
 * A candidate with the evidence for it.
 *
 * @param candidate the candidate
 * @param tier what it rests on
 * @param nearest the shot in the nearest light, or null when the spot has none
 * @param minutes how long its light holds within the asked hours; 0 for a single moment
 * @param others a moment of each other window
 */
record Ranked(
    Candidate candidate,
    Answer.Tier tier,
    Answer.@Nullable NearestShot nearest,
    long minutes,
    List<Candidate> others) {
  /** A shot shows the same view when it looks at most this far beside the facing; degrees. */
  static final double SAME_VIEW_TURN_DEG = 30;

  private static final Comparator<Ranked> MOST_USEFUL_FIRST =
      Comparator.comparing(Ranked::tier)
          .thenComparing(Comparator.comparingLong(Ranked::minutes).reversed())
          .thenComparing(
              Comparator.comparingDouble((Ranked ranked) -> ranked.candidate.light().marginDeg())
                  .reversed());

  static final Comparator<Ranked> BEST_FIRST =
      MOST_USEFUL_FIRST
          .thenComparing(ranked -> ranked.candidate.spot().id())
          .thenComparing(ranked -> ranked.candidate.facing().trueDeg());

  /** The most useful moment of the most useful window, of one window or more. */
  static Ranked of(List<Run> runs, List<Observation> observations) {
    List<Ranked> bests = runs.stream().map(run -> bestOf(run, observations)).toList();
    Ranked best = bests.stream().min(MOST_USEFUL_FIRST).orElseThrow();
    LocalDate day = best.candidate.day();
    return new Ranked(
        best.candidate,
        best.tier,
        best.nearest,
        best.minutes,
        bests.stream()
            .filter(other -> other != best)
            .map(Ranked::candidate)
            .filter(other -> other.day().equals(day))
            .toList());
  }

  private static Ranked bestOf(Run run, List<Observation> observations) {
    return run.moments().stream()
        .map(moment -> of(moment, observations).lasting(run.minutes()))
        .min(MOST_USEFUL_FIRST)
        .orElseThrow();
  }

  private Ranked lasting(long wholeMinutes) {
    return new Ranked(candidate, tier, nearest, wholeMinutes, others);
  }

  static Ranked of(Candidate candidate, List<Observation> observations) {
    Answer.NearestShot like = null;
    Answer.NearestShot sameView = null;
    Answer.NearestShot any = null;
    for (Observation observation : observations) {
      double gapDeg = candidate.sun().gapDeg(observation.sun());
      Answer.NearestShot shot = new Answer.NearestShot(observation.shotId(), gapDeg);
      any = nearer(any, shot);
      if (observation.facing() != null
          && Math.abs(candidate.facing().turnToDeg(observation.facing())) <= SAME_VIEW_TURN_DEG) {
        sameView = nearer(sameView, shot);
        if (gapDeg <= Answer.LIKE_LIGHT_GAP_DEG
            && candidate.isLitAs(observation.sun(), observation.facing())) {
          like = nearer(like, shot);
        }
      }
    }
    if (like != null) {
      return new Ranked(candidate, Answer.Tier.SCOUTED, like, 0, List.of());
    }
    return new Ranked(
        candidate,
        candidate.light().modelled() ? Answer.Tier.MODELLED : Answer.Tier.GEOMETRY,
        sameView != null ? sameView : any,
        0,
        List.of());
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
    Answer.Window window = windows.around(candidate.instant(), view);
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
        window,
        others(windows, view, new Answer.Other(light.light(), window)),
        tier,
        nearest,
        candidate.days(),
        Reasons.of(candidate, at, directUntil, sky, tier, nearest));
  }

  /** Each once: a window of which only parts fit the question is one all the same. */
  private List<Answer.Other> others(
      WindowFinder windows, WindowFinder.View view, Answer.Other shown) {
    return others.stream()
        .map(
            other -> new Answer.Other(other.light().light(), windows.around(other.instant(), view)))
        .distinct()
        .filter(other -> !other.equals(shown))
        .toList();
  }
}
