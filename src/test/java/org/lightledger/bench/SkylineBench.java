package org.lightledger.bench;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.DirectSun;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.buildings.BuildingHorizon;
import org.lightledger.skyline.buildings.BuildingOptions;
import org.lightledger.skyline.buildings.HeightSource;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.skyline.buildings.ObstructionKind;
import org.lightledger.skyline.buildings.Obstructions;
import org.lightledger.skyline.terrain.ElevationSurface;
import org.lightledger.skyline.terrain.TerrainHorizon;
import org.lightledger.skyline.terrain.TerrainOptions;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunCurve;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
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
 * How long a skyline takes once its tiles are in memory: invented mountains of nine tiles, 720
 * azimuths, 50 kilometres of reach; and 10,000 houses in range.
 *
 * <p>Run with {@code mvn -q test-compile exec:java -Dexec.classpathScope=test
 * -Dexec.mainClass=org.openjdk.jmh.Main -Dexec.args=SkylineBench}.
 */
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
@SuppressWarnings("NullAway.Init")
public class SkylineBench {
  private static final double REACH_M = 50_000.0;

  /** Nine tiles of mountains, whose middle is looked from. */
  @State(Scope.Benchmark)
  public static class Mountains {
    /** Posts 90 and 30 metres apart. */
    @Param({"1200", "3600"})
    public int cells;

    /** From a valley, a slope and a summit, which sees farthest. */
    @Param({"valley", "slope", "summit"})
    public String place;

    ElevationSurface surface;
    GeoPoint from;

    /** Writes the tiles; the warm-up reads them. */
    @Setup
    public void write() throws IOException {
      Path folder = Files.createTempDirectory("skyline-bench");
      folder.toFile().deleteOnExit();
      for (int south = 45; south <= 47; south++) {
        for (int west = 9; west <= 11; west++) {
          Path file = folder.resolve("N%02dE%03d.hgt".formatted(south, west));
          Files.write(file, tile(cells, south, west));
          file.toFile().deleteOnExit();
        }
      }
      surface = ElevationSurface.open(List.of(folder), 1L << 30).surface();
      from = place(place);
    }

    private GeoPoint place(String name) {
      GeoPoint lowest = new GeoPoint(46.5, 10.5);
      GeoPoint highest = lowest;
      for (double north = 46.4; north < 46.6; north += 0.002) {
        for (double east = 10.4; east < 10.6; east += 0.002) {
          GeoPoint here = new GeoPoint(north, east);
          double height = surface.groundM(here).orElseThrow();
          lowest = height < surface.groundM(lowest).orElseThrow() ? here : lowest;
          highest = height > surface.groundM(highest).orElseThrow() ? here : highest;
        }
      }
      return switch (name) {
        case "valley" -> lowest;
        case "summit" -> highest;
        default -> new GeoPoint(46.5123, 10.4877);
      };
    }

    static TerrainOptions options() {
      return TerrainOptions.STANDARD.withReachM(REACH_M);
    }

    /** Sums of waves from 40 kilometres down to 300 metres, and noise. */
    private static byte[] tile(int cells, int south, int west) {
      ByteBuffer posts =
          ByteBuffer.allocate((cells + 1) * (cells + 1) * 2).order(ByteOrder.BIG_ENDIAN);
      for (int row = 0; row <= cells; row++) {
        double north = south + 1.0 - (double) row / cells;
        for (int col = 0; col <= cells; col++) {
          double east = west + (double) col / cells;
          double height = 1500.0;
          double amplitude = 700.0;
          double frequency = 17.0;
          for (int octave = 0; octave < 8; octave++) {
            height +=
                amplitude
                    * Math.sin(frequency * north + octave * 1.7)
                    * Math.sin(frequency * 0.7 * east + 0.3 * frequency * north + octave);
            amplitude /= 2.0;
            frequency *= 2.03;
          }
          posts.putShort((short) Math.round(height));
        }
      }
      return posts.array();
    }
  }

  /** A town of houses. */
  @State(Scope.Benchmark)
  public static class Town {
    private static final int HOUSES = 10_000;
    private static final GeoPoint MIDDLE = new GeoPoint(48.2, 16.37);

    Obstructions houses;

    /** Builds it, without houses on the place itself. */
    @Setup
    public void build() {
      Random random = new Random(1);
      GeometryFactory factory = new GeometryFactory();
      List<Obstruction> town = new ArrayList<>();
      while (town.size() < HOUSES) {
        double east = (random.nextDouble() - 0.5) * 0.036;
        double north = (random.nextDouble() - 0.5) * 0.024;
        if (Math.hypot(east * 0.67, north) > 0.0004) {
          double wide = 0.00007 + random.nextDouble() * 0.0001;
          double west = MIDDLE.longitudeDeg() + east;
          double south = MIDDLE.latitudeDeg() + north;
          Coordinate[] corners = {
            new Coordinate(west, south),
            new Coordinate(west + wide, south + wide / 5),
            new Coordinate(west + wide, south + wide),
            new Coordinate(west + wide / 2, south + wide),
            new Coordinate(west + wide / 2, south + wide * 0.7),
            new Coordinate(west, south + wide * 0.7),
            new Coordinate(west, south)
          };
          town.add(
              new Obstruction(
                  "house " + town.size(),
                  ObstructionKind.BUILDING,
                  factory.createPolygon(corners),
                  4.0 + random.nextDouble() * 20.0,
                  0.0,
                  HeightSource.GIVEN,
                  null));
        }
      }
      houses = Obstructions.of(town, null);
    }
  }

  /** A day of sun. */
  @State(Scope.Benchmark)
  public static class Day {
    final Instant start = Instant.parse("2026-06-12T00:00:00Z");
    final Instant end = Instant.parse("2026-06-13T00:00:00Z");
    final SunCurve curve = SunCurve.of(new SpaEphemeris(), start, end);
  }

  /** A full turn over the land. */
  @Benchmark
  public TerrainHorizon terrain(Mountains mountains) {
    return TerrainHorizon.around(mountains.surface, mountains.from, Mountains.options())
        .orElseThrow();
  }

  /** A full turn over the town. */
  @Benchmark
  public BuildingHorizon buildings(Town town) {
    return town.houses.around(Town.MIDDLE, BuildingOptions.STANDARD);
  }

  /** The direct sun of a day. */
  @Benchmark
  public DirectSun day(Day day) {
    return DirectSun.over(day.curve, Skyline.notKnown(), Town.MIDDLE, day.start, day.end);
  }
}
