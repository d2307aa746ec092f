package org.lightledger.bench;

import java.util.concurrent.TimeUnit;
import org.lightledger.geo.Bearing;
import org.lightledger.skyline.buildings.CastShadow;
import org.lightledger.skyline.buildings.ShadowOptions;
import org.lightledger.sun.SunDirection;
import org.locationtech.jts.geom.Envelope;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * How long the shadows of a town take: 10,000 houses of six corners on 2.7 by 2.7 kilometres, all
 * in the box, joined into one area.
 *
 * <p>Run with {@code mvn -q test-compile exec:java -Dexec.classpathScope=test
 * -Dexec.mainClass=org.openjdk.jmh.Main -Dexec.args=ShadowBench}.
 */
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
@State(Scope.Benchmark)
public class ShadowBench {
  private static final Envelope WHOLE = new Envelope(16.35, 16.39, 48.187, 48.213);

  /** From a morning to a summer noon. */
  @Param({"8", "25", "60"})
  public double sunAltitudeDeg;

  /** The whole town. */
  @Benchmark
  public CastShadow town(SkylineBench.Town town) {
    return CastShadow.within(
            town.houses,
            WHOLE,
            new SunDirection(new Bearing(140.0), sunAltitudeDeg, sunAltitudeDeg),
            ShadowOptions.STANDARD)
        .orElseThrow();
  }
}
