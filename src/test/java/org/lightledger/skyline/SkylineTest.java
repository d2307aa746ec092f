package org.lightledger.skyline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.EnumSet;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.sun.SunDirection;

class SkylineTest {
  private static final Set<SkylineFlag> NONE = Set.of();

  private static Skyline random(long seed) {
    Random random = new Random(seed);
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      EnumSet<SkylineFlag> flags = EnumSet.noneOf(SkylineFlag.class);
      for (SkylineFlag flag : SkylineFlag.values()) {
        if (random.nextInt(4) == 0) {
          flags.add(flag);
        }
      }
      builder.set(
          step,
          random.nextDouble() * 180.0 - 90.0,
          random.nextDouble() * 5.0,
          SkylineSource.values()[random.nextInt(SkylineSource.values().length)],
          flags);
    }
    return builder.build();
  }

  private static Skyline level(double altitudeDeg, SkylineSource source, Set<SkylineFlag> flags) {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      builder.set(step, altitudeDeg, 0.4, source, flags);
    }
    return builder.build();
  }

  @Property(tries = 50)
  void bytesGiveTheSameSkyline(@ForAll long seed) {
    Skyline skyline = random(seed);

    assertThat(Skyline.fromBytes(skyline.toBytes())).isEqualTo(skyline);
    assertThat(Skyline.fromBytes(skyline.toBytes()).hashCode()).isEqualTo(skyline.hashCode());
  }

  /** Version 1, then big endian: 1.5 is 3FC00000, 0.25 is 3E800000, terrain 1, voids 2. */
  @Test
  void bytesAreWrittenDown() {
    Skyline skyline =
        new SkylineBuilder()
            .set(0, 1.5, 0.25, SkylineSource.TERRAIN, Set.of(SkylineFlag.CROSSED_VOID))
            .build();

    assertThat(skyline.toBytes()).hasSize(7201);
    assertThat(skyline.toBytes())
        .startsWith(0x01, 0x3F, 0xC0, 0x00, 0x00, 0x3E, 0x80, 0x00, 0x00, 0x01, 0x02);
  }

  @Test
  void otherBytesAreRefused() {
    byte[] later = Skyline.notKnown().toBytes();
    later[0] = 2;
    byte[] source = Skyline.notKnown().toBytes();
    source[9] = 17;
    byte[] notANumber = Skyline.notKnown().toBytes();
    notANumber[1] = 0x7F;
    notANumber[2] = (byte) 0xC0;

    assertThatThrownBy(() -> Skyline.fromBytes(new byte[0]))
        .hasMessage(
            "expected a skyline of version 1 in 7201 bytes, found no bytes; recompute the skyline");
    assertThatThrownBy(() -> Skyline.fromBytes(later))
        .hasMessageContaining("found version 2 in 7201 bytes");
    assertThatThrownBy(() -> Skyline.fromBytes(source))
        .hasMessageContaining("expected a skyline source from 0 to 5, found 17");
    assertThatThrownBy(() -> Skyline.fromBytes(notANumber)).hasMessageContaining("found NaN");
  }

  @Test
  void interpolatesAcrossNorth() {
    Skyline skyline =
        new SkylineBuilder()
            .set(719, 10.0, 1.0, SkylineSource.TERRAIN, NONE)
            .set(0, 20.0, 3.0, SkylineSource.BUILDING, NONE)
            .build();

    assertThat(skyline.altitudeDegAt(359.5)).isEqualTo(10.0);
    assertThat(skyline.altitudeDegAt(359.75)).isEqualTo(15.0, within(1e-9));
    assertThat(skyline.altitudeDegAt(-0.1)).isEqualTo(18.0, within(1e-6));
    assertThat(skyline.uncertaintyDegAt(359.75)).isEqualTo(2.0, within(1e-9));
    assertThat(skyline.altitudeDegAt(360.0)).isEqualTo(20.0);
    assertThatThrownBy(() -> skyline.altitudeDegAt(Double.NaN))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Property(tries = 300)
  void staysBetweenItsNeighbours(
      @ForAll long seed, @ForAll @DoubleRange(min = -720, max = 720) double azimuthDeg) {
    Skyline skyline = random(seed);
    int before = (int) Math.floor((((azimuthDeg % 360.0) + 360.0) % 360.0) * 2.0) % 720;
    double a = skyline.altitudeDeg(before);
    double b = skyline.altitudeDeg((before + 1) % 720);

    assertThat(skyline.altitudeDegAt(azimuthDeg))
        .isBetween(Math.min(a, b) - 1e-9, Math.max(a, b) + 1e-9);
  }

  @Test
  void theHigherOneStandsWithItsSource() {
    Skyline land = level(3.0, SkylineSource.TERRAIN, Set.of(SkylineFlag.LEFT_KNOWN_ELEVATION));
    Skyline houses =
        new SkylineBuilder()
            .set(10, 8.0, 1.0, SkylineSource.BUILDING, Set.of(SkylineFlag.NO_TERRAIN))
            .set(11, 2.0, 1.0, SkylineSource.BUILDING, Set.of(SkylineFlag.NO_TERRAIN))
            .build();
    Skyline both = land.combine(houses);

    assertThat(both).isEqualTo(houses.combine(land));
    assertThat(both.altitudeDeg(10)).isEqualTo(8.0);
    assertThat(both.source(10)).isEqualTo(SkylineSource.BUILDING);
    assertThat(both.uncertaintyDeg(10)).isEqualTo(1.0);
    assertThat(both.altitudeDeg(11)).isEqualTo(3.0);
    assertThat(both.source(11)).isEqualTo(SkylineSource.TERRAIN);
    assertThat(both.flags(10)).containsExactly(SkylineFlag.LEFT_KNOWN_ELEVATION);
    assertThat(both.lowerBoundOnly(10)).isTrue();
  }

  @Test
  void whatIsKnownStandsBeforeWhatIsNot() {
    Skyline dip = level(-0.5, SkylineSource.TERRAIN, NONE);

    assertThat(Skyline.notKnown().combine(dip)).isEqualTo(dip);
    assertThat(dip.combine(Skyline.notKnown())).isEqualTo(dip);
    assertThat(Skyline.notKnown().lowerBoundOnly(5)).isTrue();
    assertThat(dip.lowerBoundOnly(5)).isFalse();
  }

  @Test
  void clearanceSaysByHowMuchAndHowSure() {
    Skyline ridge = level(3.0, SkylineSource.TERRAIN, NONE);
    Clearance clear = ridge.clearance(new SunDirection(new Bearing(280.2), 6.0, 6.1));
    Clearance behind = ridge.clearance(new SunDirection(new Bearing(280.2), 2.7, 2.8));
    Clearance unknown =
        Skyline.notKnown().clearance(new SunDirection(new Bearing(280.2), 2.7, 2.8));

    assertThat(clear.toText()).isEqualTo("clears the terrain by 3.1 degrees, plus or minus 0.4");
    assertThat(clear.certain()).isTrue();
    assertThat(behind.toText())
        .isEqualTo("is behind the terrain by 0.2 degrees, plus or minus 0.4");
    assertThat(behind.direct()).isFalse();
    assertThat(behind.certain()).isFalse();
    assertThat(unknown.toText())
        .isEqualTo("clears a level horizon by 2.8 degrees; what stands there is not known");
    assertThat(unknown.certain()).isFalse();
  }

  @Test
  void anglesOutOfTheirIntervalAreRefused() {
    SkylineBuilder builder = new SkylineBuilder();

    assertThatThrownBy(() -> builder.set(0, Double.NaN, 0, SkylineSource.TERRAIN, NONE))
        .hasMessage("expected an altitude in [-90, 90] degrees, found NaN");
    assertThatThrownBy(() -> builder.set(0, 1, -0.1, SkylineSource.TERRAIN, NONE))
        .hasMessage("expected an uncertainty in [0, 180] degrees, found -0.1");
    assertThatThrownBy(() -> builder.set(720, 1, 0.1, SkylineSource.TERRAIN, NONE))
        .hasMessage("expected a step in [0, 719], found 720");
  }
}
