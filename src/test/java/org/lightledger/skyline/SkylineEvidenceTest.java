package org.lightledger.skyline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.sun.SunDirection;

class SkylineEvidenceTest {
  /** 959.63 arc seconds. */
  private static final double RADIUS_DEG = 0.26656;

  private static ShotProof proof(String shot, double azimuth, double altitude, boolean direct) {
    return new ShotProof(shot, new SunDirection(new Bearing(azimuth), altitude, altitude), direct);
  }

  private static Skyline model(double altitudeDeg) {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      builder.set(step, altitudeDeg, 0.5, SkylineSource.TERRAIN, Set.of());
    }
    return builder.build();
  }

  @Test
  void directSunCapsWhereItStood() {
    SkylineEvidence.Result result =
        SkylineEvidence.apply(model(12.0), List.of(proof("a", 359.8, 8.0, true)));
    Skyline skyline = result.skyline();

    for (int step : new int[] {719, 0}) {
      assertThat(skyline.altitudeDeg(step)).isEqualTo(8.0 + RADIUS_DEG, within(1e-5));
      assertThat(skyline.source(step)).isEqualTo(SkylineSource.SHOT);
      assertThat(skyline.flags(step)).containsExactly(SkylineFlag.AT_MOST);
      assertThat(skyline.lowerBoundOnly(step)).isFalse();
    }
    assertThat(skyline.altitudeDeg(718)).isEqualTo(12.0);
    assertThat(skyline.altitudeDeg(1)).isEqualTo(12.0);
    assertThat(result.contradictions()).isEmpty();
    assertThat(result.corrections())
        .singleElement()
        .satisfies(
            correction -> {
              assertThat(correction.modelDeg()).isEqualTo(12.0);
              assertThat(correction.provenDeg()).isEqualTo(8.0 + RADIUS_DEG, within(1e-5));
              assertThat(correction.source()).isEqualTo(SkylineSource.TERRAIN);
            });
  }

  @Test
  void shadeRaisesWhereTheModelThoughtTheSunFree() {
    SkylineEvidence.Result result =
        SkylineEvidence.apply(model(2.0), List.of(proof("a", 250.0, 8.0, false)));

    assertThat(result.skyline().altitudeDeg(500)).isEqualTo(8.0 - RADIUS_DEG, within(1e-5));
    assertThat(result.skyline().flags(500)).containsExactly(SkylineFlag.AT_LEAST);
    assertThat(result.skyline().lowerBoundOnly(500)).isTrue();
    assertThat(result.skyline().altitudeDeg(499)).isGreaterThan(7.0);
    assertThat(result.skyline().altitudeDeg(498)).isEqualTo(2.0);
  }

  @Test
  void whatTheModelSaysAlreadyChangesNothing() {
    List<ShotProof> proofs = List.of(proof("a", 250.0, 8.0, true), proof("b", 100.0, 1.0, false));

    assertThat(SkylineEvidence.apply(model(2.0), proofs).skyline()).isEqualTo(model(2.0));
    assertThat(SkylineEvidence.apply(model(2.0), proofs).corrections()).isEmpty();
  }

  @Test
  void aChangeWithinTheUncertaintyIsNoCorrection() {
    SkylineEvidence.Result result =
        SkylineEvidence.apply(model(8.5), List.of(proof("a", 250.0, 8.0, true)));

    assertThat(result.skyline().source(500)).isEqualTo(SkylineSource.SHOT);
    assertThat(result.corrections()).isEmpty();
  }

  @Test
  void contradictionsAreReturnedNotAveraged() {
    Skyline model = model(5.0);
    List<ShotProof> proofs =
        List.of(proof("sunny.jpg", 250.0, 4.0, true), proof("shady.jpg", 250.2, 9.0, false));
    SkylineEvidence.Result result = SkylineEvidence.apply(model, proofs);

    assertThat(result.contradictions())
        .singleElement()
        .satisfies(
            found ->
                assertThat(found.toText())
                    .isEqualTo(
                        "sunny.jpg shows direct sun 4.0 degrees high, but shady.jpg shows shade"
                            + " with a sun 9.0 degrees high at the same azimuth, 250.0: check the"
                            + " clock and the place of both, and whether something was built"
                            + " between them"));
    assertThat(result.skyline().altitudeDeg(500)).isEqualTo(5.0);
    assertThat(result.skyline().source(500)).isEqualTo(SkylineSource.TERRAIN);
    assertThat(SkylineEvidence.apply(model, List.of(proofs.get(1), proofs.get(0))))
        .isEqualTo(result);
  }

  @Test
  void oneMomentNeverContradictsItself() {
    List<ShotProof> dappled = List.of(proof("a", 250.0, 8.0, true), proof("b", 250.0, 8.0, false));

    assertThat(SkylineEvidence.apply(model(8.0), dappled).contradictions()).isEmpty();
  }

  @Test
  void theTightestProofCounts() {
    List<ShotProof> proofs =
        List.of(
            proof("a", 250.0, 9.0, true),
            proof("b", 250.0, 7.0, true),
            proof("c", 250.0, 8.0, true));

    assertThat(SkylineEvidence.apply(model(20.0), proofs).skyline().altitudeDeg(500))
        .isEqualTo(7.0 + RADIUS_DEG, within(1e-5));
  }
}
