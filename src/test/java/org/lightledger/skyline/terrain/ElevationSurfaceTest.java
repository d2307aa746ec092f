package org.lightledger.skyline.terrain;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.SkylineFlag;

class ElevationSurfaceTest {
  private static final long CACHE = 64L << 20;

  @TempDir Path folder;

  /** The height of a post. */
  @FunctionalInterface
  private interface Heights {
    int at(int row, int col);
  }

  private static byte[] hgt(int cells, Heights heights) {
    ByteBuffer posts =
        ByteBuffer.allocate((cells + 1) * (cells + 1) * 2).order(ByteOrder.BIG_ENDIAN);
    for (int row = 0; row <= cells; row++) {
      for (int col = 0; col <= cells; col++) {
        posts.putShort((short) heights.at(row, col));
      }
    }
    return posts.array();
  }

  private Path write(String name, byte[] bytes) throws IOException {
    return Files.write(folder.resolve(name), bytes);
  }

  private Path zip(String name, String entry, byte[] bytes) throws IOException {
    Path file = folder.resolve(name);
    try (OutputStream out = Files.newOutputStream(file);
        ZipOutputStream zip = new ZipOutputStream(out)) {
      zip.putNextEntry(new ZipEntry(entry));
      zip.write(bytes);
    }
    return file;
  }

  private ElevationSurface open() throws IOException {
    ElevationSurface.Opened opened = ElevationSurface.open(List.of(folder), CACHE);
    assertThat(opened.problems()).isEmpty();
    return opened.surface();
  }

  private static double ground(ElevationSurface surface, double latitude, double longitude) {
    return surface.groundM(new GeoPoint(latitude, longitude)).orElse(Double.NaN);
  }

  /** The first post of a file is its north-west corner, and posts are points. */
  @Test
  void postsAreWhereTheNameSays() throws IOException {
    write("N46E010.hgt", hgt(1200, (row, col) -> row == 0 && col == 0 ? 1000 : row));
    write("s01w001.HGT", hgt(1200, (row, col) -> 2000 + col));
    ElevationSurface surface = open();

    assertThat(ground(surface, 47.0, 10.0)).isEqualTo(1000.0);
    assertThat(ground(surface, 46.0, 11.0)).isEqualTo(1200.0);
    assertThat(ground(surface, 46.5, 10.5)).isEqualTo(600.0);
    assertThat(ground(surface, 46.5 + 0.25 / 1200, 10.5)).isEqualTo(599.75, within(1e-6));
    assertThat(ground(surface, -0.5, -0.25)).isEqualTo(2900.0);
    assertThat(surface.groundM(new GeoPoint(45.9, 10.5))).isEmpty();
  }

  @Test
  void zippedTilesReadTheSame() throws IOException {
    byte[] bytes = hgt(1200, (row, col) -> row * 3 + col % 7);
    write("N46E010.hgt", bytes);
    zip("N46E011.SRTMGL3.hgt.zip", "N46E011.hgt", bytes);
    ElevationSurface surface = open();

    for (double part = 0.01; part < 1.0; part += 0.07) {
      assertThat(ground(surface, 46.0 + part, 11.0 + part))
          .isEqualTo(ground(surface, 46.0 + part, 10.0 + part), within(1e-6));
    }
  }

  /** A ridge behind the seam of two tiles, of two spacings, is seen across it. */
  @Test
  void tilesAreOneSurface() throws IOException {
    write("N46E010.hgt", hgt(1200, (row, col) -> 0));
    write("N46E011.hgt", hgt(3600, (row, col) -> col == 360 ? 300 : 0));
    ElevationSurface surface = open();
    GeoPoint place = new GeoPoint(46.5, 10.95);
    TerrainHorizon horizon =
        TerrainHorizon.around(surface, place, TerrainOptions.STANDARD.withReachM(20_000))
            .orElseThrow();

    // The ridge stands at 11.1 east, 0.15 degrees of longitude away: 11.5 kilometres.
    assertThat(horizon.distanceM(180)).isEqualTo(11_513.0, within(5.0));
    assertThat(horizon.altitudeDeg(180))
        .isEqualTo(
            Math.toDegrees(Math.atan((300 - 1.6) / 11_513.0 - 11_513.0 * 6.8278e-8)),
            within(0.001));
    assertThat(horizon.flags(180)).isEmpty();
  }

  @Test
  void theCoarseTileFillsTheVoidsOfTheFineOne() throws IOException {
    Path fine = Files.createDirectory(folder.resolve("fine"));
    Files.write(
        fine.resolve("N46E010.hgt"),
        hgt(3600, (row, col) -> col > 1900 && col < 2000 ? Short.MIN_VALUE : 10));
    ElevationSurface alone = open();
    write("N46E010.hgt", hgt(1200, (row, col) -> col == 650 ? 210 : 10));
    ElevationSurface both = open();
    GeoPoint place = new GeoPoint(46.5, 10.5);
    TerrainOptions options = TerrainOptions.STANDARD.withReachM(10_000);

    TerrainHorizon withVoid = TerrainHorizon.around(alone, place, options).orElseThrow();
    assertThat(withVoid.flags(180)).containsExactly(SkylineFlag.CROSSED_VOID);
    assertThat(withVoid.flags(540)).isEmpty();
    assertThat(withVoid.altitudeDeg(180)).isLessThan(0.0);
    TerrainHorizon filled = TerrainHorizon.around(both, place, options).orElseThrow();
    assertThat(filled.flags(180)).isEmpty();
    assertThat(filled.distanceM(180)).isEqualTo(50.0 / 1200 * 76_900, within(20.0));
  }

  @Test
  void looksAcrossTheDateLine() throws IOException {
    write("S17E179.hgt", hgt(1200, (row, col) -> 0));
    write("S17W180.hgt", hgt(1200, (row, col) -> col == 60 ? 200 : 0));
    TerrainHorizon horizon =
        TerrainHorizon.around(
                open(), new GeoPoint(-16.5, 179.95), TerrainOptions.STANDARD.withReachM(20_000))
            .orElseThrow();

    assertThat(horizon.distanceM(180)).isEqualTo(10_674.0, within(10.0));
    assertThat(horizon.flags(180)).isEmpty();
  }

  @Test
  void whatDoesNotFitIsDroppedAndReadAgain() throws IOException {
    for (int east = 10; east < 16; east++) {
      write("N46E0" + east + ".hgt", hgt(1200, (row, col) -> row % 5));
    }
    long twoTiles = 2L * 1201 * 1201 * 2;
    ElevationSurface.Opened small = ElevationSurface.open(List.of(folder), twoTiles);
    TerrainOptions options = TerrainOptions.STANDARD.withReachM(150_000);
    GeoPoint place = new GeoPoint(46.5, 13.0);

    TerrainHorizon bounded = TerrainHorizon.around(small.surface(), place, options).orElseThrow();
    TerrainHorizon roomy = TerrainHorizon.around(open(), place, options).orElseThrow();
    assertThat(small.surface().bytesInMemory()).isLessThanOrEqualTo(twoTiles);
    assertThat(small.surface().cache().reads()).isGreaterThan(4);
    assertThat(bounded.skyline()).isEqualTo(roomy.skyline());
  }

  @Test
  void aBadFileIsALineInTheReport() throws IOException {
    write("N46E010.hgt", hgt(1200, (row, col) -> 5));
    write("somewhere.hgt", new byte[2884802]);
    write("N46E011.hgt", new byte[2884800]);
    zip("N46E012.hgt.zip", "readme.txt", new byte[10]);
    write("N47E012.hgt.zip", new byte[10]);
    write("N95E012.hgt", new byte[2884802]);
    write("noise.tif", new byte[100]);
    Path missing = folder.resolve("N50E010.hgt");
    Path text = Files.writeString(folder.resolve("notes.txt"), "nothing");

    ElevationSurface.Opened opened = ElevationSurface.open(List.of(folder, missing, text), CACHE);

    assertThat(opened.files()).isEqualTo(1);
    assertThat(opened.problems())
        .hasSize(8)
        .anyMatch(
            line ->
                line.equals(
                    "somewhere.hgt: expected a name such as N43E007.hgt, which tells"
                        + " the tile's corner; rename it"))
        .anyMatch(
            line ->
                line.equals(
                    "N46E011.hgt: expected 2884802 bytes (3 arc seconds) or 25934402 bytes"
                        + " (1 arc second), found 2884800; fetch it again"))
        .contains("N46E012.hgt.zip: expected an .hgt file in the zip, found none")
        .contains("N47E012.hgt.zip: can not be read (ZipException)")
        .contains("N95E012.hgt: expected a south-west corner on the earth, found 95,12")
        .contains("N50E010.hgt: can not be read (NoSuchFileException)")
        .contains("notes.txt: expected .hgt, .hgt.zip, .tif or .tiff")
        .anyMatch(line -> line.startsWith("noise.tif: can not be read as a GeoTIFF ("))
        .noneMatch(line -> line.contains(folder.toString()));
    assertThat(ground(opened.surface(), 46.5, 10.5)).isEqualTo(5.0);
  }
}
