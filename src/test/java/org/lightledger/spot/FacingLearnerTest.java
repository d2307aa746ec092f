package org.lightledger.spot;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.DoubleStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;

class FacingLearnerTest {

  @Test
  void noDirectionsGiveNoFacing() {
    assertThat(FacingLearner.learn(List.of())).isEmpty();
  }

  @Test
  void directionsAroundNorthAreOneFacing() {
    List<Facing> facings = learn(350, 355, 5, 10);

    assertThat(facings).hasSize(1);
    assertThat(facings.get(0).bearing().trueDeg()).isCloseTo(0, within(1e-9));
    assertThat(facings.get(0).spreadDeg()).isEqualTo(FacingLearner.LEAST_SPREAD_DEG);
    assertThat(facings.get(0).shots()).isEqualTo(4);
  }

  @Test
  void twoBackgroundsAreTwoFacings() {
    List<Facing> facings = learn(248, 240, 256, 31, 29);

    assertThat(facings)
        .extracting(facing -> facing.bearing().trueDeg())
        .containsExactly(30.0, 248.0);
    assertThat(facings).extracting(Facing::shots).containsExactly(2, 3);
  }

  @Test
  void theSpreadReachesTheOutermostShot() {
    assertThat(learn(100, 150).get(0).spreadDeg()).isCloseTo(25, within(1e-9));
  }

  @Test
  void aFullTurnIsCutIntoSeveralFacings() {
    List<Facing> facings = learn(0, 45, 90, 135, 180, 225, 270, 315);

    assertThat(facings).hasSizeGreaterThan(3);
    assertThat(facings.stream().mapToInt(Facing::shots).sum()).isEqualTo(8);
  }

  @Property(tries = 300)
  void everyDirectionLiesWithinTheSpreadOfAFacing(
      @ForAll @Size(min = 1, max = 40) List<@DoubleRange(max = 359.99) Double> degrees) {
    List<Bearing> directions = degrees.stream().map(Bearing::new).toList();
    List<Facing> facings = FacingLearner.learn(directions);

    assertThat(facings.stream().mapToInt(Facing::shots).sum()).isEqualTo(directions.size());
    assertThat(directions)
        .allSatisfy(
            direction ->
                assertThat(facings)
                    .anySatisfy(
                        facing ->
                            assertThat(Math.abs(facing.bearing().turnToDeg(direction)))
                                .isLessThanOrEqualTo(facing.spreadDeg() + 1e-9)));
  }

  @Property(tries = 300)
  void theOrderOfTheShotsDoesNotMatter(
      @ForAll @Size(min = 1, max = 20) List<@DoubleRange(max = 359.99) Double> degrees,
      @ForAll long seed) {
    List<Bearing> directions = new ArrayList<>(degrees.stream().map(Bearing::new).toList());
    List<Facing> facings = FacingLearner.learn(directions);
    Collections.shuffle(directions, new Random(seed));

    assertThat(FacingLearner.learn(directions)).isEqualTo(facings);
  }

  private static List<Facing> learn(double... degrees) {
    return FacingLearner.learn(DoubleStream.of(degrees).mapToObj(Bearing::new).toList());
  }
}
