package org.lightledger.skyline;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Angles;

/**
 * Bounds on a skyline from shots. Direct sun on the subject caps the skyline at the sun's upper
 * limb, shade raises it to the lower limb: each the weakest claim that the shot allows, so that two
 * shots of one moment never contradict each other. A proof holds for the azimuths within {@value
 * #SPREAD_DEG} degrees of the sun's (own choice: the sun's disc and the step of a skyline).
 *
 * <p>Where shots contradict each other, none of them is applied and the contradiction is returned:
 * a clock, a position or a new building may be behind it, and no mean of them is true.
 */
public final class SkylineEvidence {
  /** How far from the sun's azimuth a proof holds, degrees. */
  public static final double SPREAD_DEG = 0.5;

  private SkylineEvidence() {}

  /**
   * What the shots say.
   *
   * @param skyline the skyline with every bound that nothing contradicts
   * @param corrections where a shot moved the model by more than its uncertainty
   * @param contradictions where shots exclude each other
   */
  public record Result(
      Skyline skyline, List<Correction> corrections, List<Contradiction> contradictions) {}

  /**
   * A shot against the model.
   *
   * @param proof the shot
   * @param azimuthDeg where, degrees in [0, 360)
   * @param modelDeg altitude before, degrees
   * @param provenDeg altitude after, degrees
   * @param source what the model rested on
   */
  public record Correction(
      ShotProof proof, double azimuthDeg, double modelDeg, double provenDeg, SkylineSource source) {

    /**
     * The correction in words.
     *
     * @return a sentence that names the shot and both altitudes
     */
    public String toText() {
      return String.format(
          Locale.ROOT,
          "%s shows %s with the sun %.1f degrees high at azimuth %.1f, where the skyline was worked"
              + " out as %.1f degrees: it is taken as %s %.1f there",
          proof.shot(),
          proof.direct() ? "direct sun" : "shade",
          proof.sun().apparentAltitudeDeg(),
          azimuthDeg,
          modelDeg,
          proof.direct() ? "at most" : "at least",
          provenDeg);
    }
  }

  /**
   * A shot against a shot.
   *
   * @param direct the shot in direct sun
   * @param shade the shot in shade, with a higher sun
   * @param azimuthDeg where, degrees in [0, 360)
   */
  public record Contradiction(ShotProof direct, ShotProof shade, double azimuthDeg) {

    /**
     * The contradiction in words.
     *
     * @return a sentence that names both shots and what may be wrong
     */
    public String toText() {
      return String.format(
          Locale.ROOT,
          "%s shows direct sun %.1f degrees high, but %s shows shade with a sun %.1f degrees high"
              + " at the same azimuth, %.1f: check the clock and the place of both, and whether"
              + " something was built between them",
          direct.shot(),
          direct.sun().apparentAltitudeDeg(),
          shade.shot(),
          shade.sun().apparentAltitudeDeg(),
          azimuthDeg);
    }
  }

  /**
   * Applies what shots prove.
   *
   * @param model the skyline without them
   * @param proofs the shots, in any order
   * @return the bounded skyline and what did not fit
   */
  public static Result apply(Skyline model, List<ShotProof> proofs) {
    SkylineBuilder builder = new SkylineBuilder(model);
    List<Correction> corrections = new ArrayList<>();
    List<Contradiction> contradictions = new ArrayList<>();
    Set<List<ShotProof>> told = new HashSet<>();
    Set<ShotProof> corrected = new HashSet<>();
    for (int step = 0; step < Skyline.STEPS; step++) {
      ShotProof cap = tightest(proofs, step, true);
      ShotProof raise = tightest(proofs, step, false);
      if (cap != null && raise != null && cap.atMostDeg() < raise.atLeastDeg()) {
        if (told.add(List.of(cap, raise))) {
          contradictions.add(new Contradiction(cap, raise, Skyline.azimuthDeg(step)));
        }
        continue;
      }
      for (ShotProof proof : new ShotProof[] {cap, raise}) {
        if (proof != null && bound(builder, model, step, proof) && corrected.add(proof)) {
          corrections.add(correction(model, step, proof));
        }
      }
    }
    return new Result(builder.build(), List.copyOf(corrections), List.copyOf(contradictions));
  }

  /** The lowest cap or the highest raise among the shots that speak of a step. */
  private static @Nullable ShotProof tightest(List<ShotProof> proofs, int step, boolean direct) {
    ShotProof tightest = null;
    for (ShotProof proof : proofs) {
      double turnDeg = Angles.turnDeg(proof.sun().azimuth().trueDeg(), Skyline.azimuthDeg(step));
      if (proof.direct() == direct && Math.abs(turnDeg) <= SPREAD_DEG) {
        boolean tighter =
            tightest == null
                || (direct
                    ? proof.atMostDeg() < tightest.atMostDeg()
                    : proof.atLeastDeg() > tightest.atLeastDeg());
        tightest = tighter ? proof : tightest;
      }
    }
    return tightest;
  }

  /** Applies a proof to a step; tells whether it moved the model beyond its uncertainty. */
  private static boolean bound(SkylineBuilder builder, Skyline model, int step, ShotProof proof) {
    double modelDeg = model.altitudeDeg(step);
    boolean moves = proof.direct() ? modelDeg > provenDeg(proof) : modelDeg < provenDeg(proof);
    if (!moves) {
      return false;
    }
    EnumSet<SkylineFlag> flags =
        EnumSet.of(proof.direct() ? SkylineFlag.AT_MOST : SkylineFlag.AT_LEAST);
    builder.set(step, provenDeg(proof), SolarDisc.RADIUS_DEG, SkylineSource.SHOT, flags);
    return Math.abs(modelDeg - provenDeg(proof)) > model.uncertaintyDeg(step);
  }

  private static Correction correction(Skyline model, int step, ShotProof proof) {
    return new Correction(
        proof,
        Skyline.azimuthDeg(step),
        model.altitudeDeg(step),
        provenDeg(proof),
        model.source(step));
  }

  private static double provenDeg(ShotProof proof) {
    double bound = proof.direct() ? proof.atMostDeg() : proof.atLeastDeg();
    return Math.max(-90.0, Math.min(90.0, bound));
  }
}
