package org.lightledger.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import org.lightledger.store.NearSpot;
import org.lightledger.store.Samples;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;

/** What the ledger costs, with 100,000 spots of one or two facings and as many shots in it. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class StoreBench {
  private static final int SPOTS = 100_000;
  private static final int BATCH = 1000;
  private static final Instant START = Instant.parse("2026-01-01T08:00:00Z");

  private final Random random = new Random(7);
  private Path folder;
  private Ledger ledger;
  private long content;

  /** Runs the benchmarks of this class. */
  public static void main(String[] args) throws RunnerException {
    new Runner(new OptionsBuilder().include(StoreBench.class.getName()).build()).run();
  }

  /** Fills a ledger; the spots lie within some 200 km. */
  @Setup
  public void fill() throws IOException {
    folder = Files.createTempDirectory("store-bench");
    ledger = Samples.open(folder);
    ledger.change(
        session -> {
          for (int spot = 0; spot < SPOTS; spot++) {
            long id = session.spots().insert(spot());
            content++;
            session
                .shots()
                .insert(
                    Samples.shot(place(), START.plus(content, ChronoUnit.MINUTES)),
                    Samples.sha256(content),
                    Samples.sun(random.nextDouble() * 359, 20),
                    id);
          }
        });
  }

  private Spot spot() {
    Facing one = new Facing(new Bearing(359 * random.nextDouble()), 15, Facing.Origin.SHOTS, 3);
    Facing other = new Facing(new Bearing(359 * random.nextDouble()), 15, Facing.Origin.OWNER, 0);
    return random.nextBoolean()
        ? Samples.spot("Spot " + content, place(), one)
        : Samples.spot("Spot " + content, place(), one, other);
  }

  private GeoPoint place() {
    return new GeoPoint(41 + 2 * random.nextDouble(), -7 + 2 * random.nextDouble());
  }

  /** Removes the ledger. */
  @TearDown
  public void remove() throws IOException {
    ledger.close();
    List<Path> files;
    try (Stream<Path> found = Files.list(folder)) {
      files = new ArrayList<>(found.toList());
    }
    files.add(folder);
    for (Path file : files) {
      Files.delete(file);
    }
  }

  /** One shot, in a transaction of a thousand. */
  @Benchmark
  @OperationsPerInvocation(BATCH)
  public void insertShot() {
    ledger.change(
        session -> {
          for (int shot = 0; shot < BATCH; shot++) {
            content++;
            session
                .shots()
                .insert(
                    Samples.shot(place(), START.plus(content, ChronoUnit.MINUTES)),
                    Samples.sha256(content),
                    Samples.sun(random.nextDouble() * 359, 20),
                    null);
          }
        });
  }

  /** One small change with a transaction of its own. */
  @Benchmark
  public void changeOneSpot() {
    GeoPoint place = place();
    ledger.change(session -> session.spots().move(1, place, null));
  }

  /** Every spot with its facings. */
  @Benchmark
  public List<Spot> readEverySpot() {
    return ledger.read(session -> session.spots().all());
  }

  /** Every observation. */
  @Benchmark
  public Map<Long, List<Observation>> readEveryObservation() {
    return ledger.read(session -> session.observations().all());
  }

  /** Spots within 5 km: some two hundred. */
  @Benchmark
  public List<NearSpot> within5Km() {
    GeoPoint place = place();
    return ledger.read(session -> session.spotSearch().within(place, 5000));
  }

  /** The nearest spot within 500 m. */
  @Benchmark
  public Optional<NearSpot> nearest() {
    GeoPoint place = place();
    return ledger.read(session -> session.spotSearch().nearest(place, 500));
  }

  /** Whether the stock has changed. */
  @Benchmark
  public long stockVersion() {
    return ledger.stockVersion();
  }

  /** Opening a ledger that is up to date, one read, closing. */
  @Benchmark
  public long openReadClose() {
    try (Ledger again = Samples.open(folder)) {
      return again.stockVersion();
    }
  }
}
