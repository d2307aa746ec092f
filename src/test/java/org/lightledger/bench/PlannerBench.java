package org.lightledger.bench;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.lightledger.ask.Sky;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.drive.Drives;
import org.lightledger.session.drive.Place;
import org.lightledger.session.planner.Claim;
import org.lightledger.session.planner.LightWeights;
import org.lightledger.session.planner.OutfitWish;
import org.lightledger.session.planner.PlanCandidate;
import org.lightledger.session.planner.PlanOutcome;
import org.lightledger.session.planner.PlanRequest;
import org.lightledger.session.planner.Planner;
import org.lightledger.session.planner.SessionFrame;
import org.lightledger.session.planner.StopLimits;
import org.lightledger.session.planner.SunlightMaker;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineFlag;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;
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
import org.openjdk.jmh.annotations.Warmup;

/**
 * How long a plan takes: two to five stops out of twelve candidates in a session of two hours
 * within four, on a grid of five minutes, with all that is told of it.
 *
 * <p>Run with {@code mvn -q test-compile exec:java -Dexec.classpathScope=test
 * -Dexec.mainClass=org.openjdk.jmh.Main -Dexec.args=PlannerBench}.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class PlannerBench {
  /** How many outfits are worn. */
  @Param({"1", "4"})
  public int outfits;

  private PlanRequest request;

  /** Makes the spots, some of them looking any way, under hills. */
  @Setup
  public void make() {
    Random random = new Random(4);
    Instant start = Instant.parse("2026-06-10T16:00:00Z");
    ZoneId zone = ZoneId.of("Europe/Madrid");
    SessionFrame frame =
        new SessionFrame(
            zone, LocalDate.of(2026, 6, 10), start, start.plus(Duration.ofMinutes(240)), 120, 5);
    SunlightMaker light = new SunlightMaker(new SpaEphemeris(), start, 240);
    List<PlanCandidate> candidates = new ArrayList<>();
    List<Place> places = new ArrayList<>();
    for (int id = 1; id <= 12; id++) {
      GeoPoint place =
          new GeoPoint(41.92 + 0.05 * random.nextDouble(), -6.42 + 0.05 * random.nextDouble());
      Facing facing = new Facing(new Bearing(random.nextInt(360)), 15, Facing.Origin.SHOTS, 3);
      Spot spot =
          new Spot(id, "Spot " + id, null, place, zone, id % 3 == 0, List.of(facing), "", "");
      Skyline skyline = hills(random);
      candidates.add(
          new PlanCandidate(
              id,
              spot.name(),
              place,
              light.of(spot, skyline, List.of(), Sky.CLEAR),
              light.of(spot, skyline, List.of(), Sky.OVERCAST),
              LightWeights.USUAL,
              15,
              35,
              List.of(),
              id % 2 == 0,
              Claim.FREE,
              random.nextDouble()));
      places.add(new Place(id, place));
    }
    request =
        new PlanRequest(
            frame,
            StopLimits.USUAL,
            new OutfitWish(outfits, 10, false),
            Sky.CLEAR,
            candidates,
            new Drives(Map.of(), List.of()).table(places, null),
            List.of());
  }

  private static Skyline hills(Random random) {
    SkylineBuilder builder = new SkylineBuilder();
    double highDeg = 12 * random.nextDouble();
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

  /** The plan. */
  @Benchmark
  public PlanOutcome plan() {
    return Planner.plan(request);
  }
}
