package org.lightledger.shot.zone;

import java.util.List;
import java.util.concurrent.TimeUnit;
import org.lightledger.geo.GeoPoint;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** What it costs to know the zones of a place, and to load their map, which is done once. */
@State(Scope.Thread)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
public class ZonesBench {
  private final PlaceZones zones = new PlaceZones();
  private int tick;

  private GeoPoint next() {
    tick = (tick + 1) % 5_000;
    return new GeoPoint(36 + tick % 700 / 100.0, -9 + tick % 370 / 50.0);
  }

  /** The zones of a place in Iberia. */
  @Benchmark
  @BenchmarkMode(Mode.AverageTime)
  @Warmup(iterations = 3, time = 1)
  @Measurement(iterations = 5, time = 1)
  public ZonesAtPlace ask() {
    return zones.zonesAt(next(), 0);
  }

  /** The map of zones, loaded anew. */
  @Benchmark
  @BenchmarkMode(Mode.SingleShotTime)
  @Warmup(iterations = 2)
  @Measurement(iterations = 5)
  public List<ZoneShape> load() {
    return ZoneShapeData.load();
  }
}
