package org.lightledger.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import org.lightledger.ask.Answers;
import org.lightledger.ask.Asker;
import org.lightledger.ask.Question;
import org.lightledger.ask.TimeOfDay;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineFlag;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerStock;
import org.lightledger.store.SkylineStore;
import org.lightledger.sun.SpaEphemeris;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;

/** How long a question to 100,000 stored spots takes. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class AskBench {
  private static final int SPOTS = 100_000;

  /** Whether something is known around every spot, or around none. */
  @Param({"false", "true"})
  private boolean skylines;

  private final Asker asker = new Asker(new SpaEphemeris());
  private Path folder;
  private Ledger ledger;
  private LedgerStock warm;

  /** Stores the spots, spread over some 200 km, each with one or two facings. */
  @Setup
  public void store() throws IOException {
    folder = Files.createTempDirectory("ask-bench");
    Instant then = Instant.parse("2026-11-25T12:00:00Z");
    ledger = Ledger.open(folder, Clock.fixed(then, ZoneOffset.UTC));
    Random random = new Random(7);
    ledger.write(
        session -> {
          for (int i = 0; i < SPOTS; i++) {
            GeoPoint place =
                new GeoPoint(41 + 2 * random.nextDouble(), -7 + 2 * random.nextDouble());
            long id =
                session
                    .spots()
                    .insert(
                        new Spot(
                            0,
                            "Spot " + i,
                            null,
                            place,
                            ZoneId.of("Europe/Madrid"),
                            false,
                            List.of(),
                            "",
                            ""));
            session.spots().setFacings(id, facings(random), Facing.Origin.SHOTS);
            if (skylines) {
              session
                  .skylines()
                  .put(new SkylineStore.Due(id, place), hills(random), List.of(), then);
            }
          }
          return SPOTS;
        });
    warm = new LedgerStock(ledger);
  }

  private static Skyline hills(Random random) {
    SkylineBuilder builder = new SkylineBuilder();
    double highDeg = 20 * random.nextDouble();
    for (int step = 0; step < Skyline.STEPS; step++) {
      builder.set(
          step,
          highDeg * Math.pow(Math.sin(step / 30.0), 2),
          0.2,
          SkylineSource.TERRAIN,
          EnumSet.noneOf(SkylineFlag.class));
    }
    return builder.build();
  }

  private static List<Facing> facings(Random random) {
    Facing one = new Facing(new Bearing(360 * random.nextDouble()), 15, Facing.Origin.SHOTS, 3);
    Facing other = new Facing(new Bearing(360 * random.nextDouble()), 15, Facing.Origin.SHOTS, 2);
    return random.nextBoolean() ? List.of(one) : List.of(one, other);
  }

  /** Removes the ledger. */
  @TearDown
  public void remove() throws IOException {
    ledger.close();
    try (var files = Files.list(folder)) {
      for (Path file : files.toList()) {
        Files.delete(file);
      }
    }
    Files.delete(folder);
  }

  /** A question for an hour, as the server answers it: the stock is in memory. */
  @Benchmark
  public Answers anHour() {
    return ask(LocalDate.of(2026, 12, 12), LocalDate.of(2026, 12, 12), warm);
  }

  /** The same question with the stock read from the ledger first. */
  @Benchmark
  public Answers anHourReadFromTheLedger() {
    return ask(LocalDate.of(2026, 12, 12), LocalDate.of(2026, 12, 12), new LedgerStock(ledger));
  }

  /** The hour on each day of a month. */
  @Benchmark
  public Answers aMonth() {
    return ask(LocalDate.of(2026, 12, 1), LocalDate.of(2026, 12, 31), warm);
  }

  private Answers ask(LocalDate first, LocalDate last, LedgerStock stock) {
    LocalTime five = LocalTime.of(17, 0);
    return asker.ask(
        new Question(
            Set.of(LightClass.BACKLIT), first, last, new TimeOfDay.Clock(five, five), null),
        stock,
        100);
  }
}
