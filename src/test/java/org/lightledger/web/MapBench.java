package org.lightledger.web;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Arrays;
import java.util.Locale;
import org.lightledger.indexing.MapAdding;
import org.lightledger.map.MapBox;
import org.lightledger.map.WebMercator;
import org.lightledger.map.picture.MapLook;
import org.lightledger.store.Ledger;
import org.lightledger.testing.Reference;

/**
 * What a map costs: adding an extract (the first argument, else a real one of the reference
 * folder), and its tiles at zooms 13 to 18, each asked for once in the order of a map that is
 * looked at from its upper left to its lower right. Beside the time on the clock stands the time of
 * the processor, which others on the machine do not lengthen.
 */
public final class MapBench {
  private MapBench() {}

  /** Measures and prints. */
  public static void main(String[] args) throws IOException {
    Path file = args.length > 0 ? Path.of(args[0]) : Reference.path("extract/krems.osm.gz");
    Path folder = Files.createTempDirectory("map-bench");
    try (Ledger ledger = Ledger.open(folder, Clock.systemUTC())) {
      for (MemoryPoolMXBean pool : ManagementFactory.getMemoryPoolMXBeans()) {
        pool.resetPeakUsage();
      }
      long start = System.nanoTime();
      long startCpu = cpu();
      MapAdding.Result result = new MapAdding(ledger, Clock.systemUTC()).add(file);
      System.out.printf(
          Locale.ROOT,
          "%s: %d obstructions, %d features; %.2f s, processor %.2f s, heap at most %.0f MB%n",
          file.getFileName(),
          result.map().obstructions(),
          result.map().features(),
          (System.nanoTime() - start) / 1e9,
          (cpu() - startCpu) / 1e9,
          peakHeapMb());
      for (int round = 0; round < 2; round++) {
        MapTiles tiles = new MapTiles(ledger);
        for (int zoom = 13; zoom <= 18; zoom++) {
          tiles(tiles, result.map().bounds(), zoom, round);
        }
      }
    }
  }

  private static void tiles(MapTiles tiles, MapBox box, int zoom, int round) {
    double world = Math.pow(2, zoom);
    int west = (int) (WebMercator.x(box.westDeg()) * world);
    int east = (int) (WebMercator.x(box.eastDeg()) * world);
    int north = (int) (WebMercator.y(box.northDeg()) * world);
    int south = (int) (WebMercator.y(box.southDeg()) * world);
    int count = (east - west + 1) * (south - north + 1);
    double[] wallMs = new double[count];
    double[] cpuMs = new double[count];
    int at = 0;
    for (int y = north; y <= south; y++) {
      for (int x = west; x <= east; x++) {
        long start = System.nanoTime();
        long startCpu = cpu();
        tiles.png(new MapTiles.Tile(round, zoom, x, y, MapLook.LIGHT, 1));
        wallMs[at] = (System.nanoTime() - start) / 1e6;
        cpuMs[at++] = (cpu() - startCpu) / 1e6;
      }
    }
    System.out.printf(
        Locale.ROOT,
        "z%d, round %d: %d tiles; clock median %.2f, 99th %.0f, mean %.1f ms;"
            + " processor median %.2f, 99th %.0f, mean %.1f ms%n",
        zoom,
        round + 1,
        count,
        part(wallMs, 0.5),
        part(wallMs, 0.99),
        Arrays.stream(wallMs).average().orElse(0),
        part(cpuMs, 0.5),
        part(cpuMs, 0.99),
        Arrays.stream(cpuMs).average().orElse(0));
  }

  private static double part(double[] values, double part) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return sorted[(int) Math.min(sorted.length - 1, Math.floor(part * sorted.length))];
  }

  private static long cpu() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }

  private static double peakHeapMb() {
    return ManagementFactory.getMemoryPoolMXBeans().stream()
            .filter(pool -> pool.getType() == MemoryType.HEAP)
            .mapToLong(pool -> pool.getPeakUsage().getUsed())
            .sum()
        / 1e6;
  }
}
