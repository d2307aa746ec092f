package org.lightledger.skyline.terrain;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.SkylineFlag;

class GeoTiffTest {
  private static final long CACHE = 64L << 20;

  /** Zone 33 north of UTM on WGS 84. */
  private static final int UTM_33N = 32633;

  /**
   * Northing of 48 degrees on the central meridian, 15 east: 0.9996 times the meridian arc, whose
   * integral of a (1 - e²) / (1 - e² sin²)^1.5 over latitude is 5318427.595 metres.
   */
  private static final double NORTHING_48 = 5_318_427.595 * 0.9996;

  @TempDir Path folder;

  private ElevationSurface open(Path... files) throws IOException {
    ElevationSurface.Opened opened = ElevationSurface.open(List.of(files), CACHE);
    assertThat(opened.problems()).isEmpty();
    return opened.surface();
  }

  @Test
  void projectedPostsStandWhereTheyShould() throws IOException {
    Path file =
        TestTiff.write(
            folder.resolve("a.tif"),
            UTM_33N,
            499_000,
            NORTHING_48 + 1000,
            10,
            201,
            201,
            (x, y) -> (x - 500_000) / 10 + (y - NORTHING_48) / 100);
    ElevationSurface surface = open(file);

    assertThat(surface.groundM(new GeoPoint(48.0, 15.0)).orElseThrow())
        .isEqualTo(0.0, within(0.001));
    // 0.01 degrees of longitude are 746.25 metres at 48 degrees: radians times N cos(latitude).
    assertThat(surface.groundM(new GeoPoint(48.0, 15.01)).orElseThrow())
        .isEqualTo(746.25 * 0.9996 / 10, within(0.01));
    assertThat(surface.groundM(new GeoPoint(48.1, 15.0))).isEmpty();
  }

  @Test
  void geographicPostsAreBilinearAndVoidsAreVoids() throws IOException {
    Path file =
        TestTiff.write(
            folder.resolve("a.tif"),
            4326,
            10.0,
            47.0,
            0.001,
            300,
            300,
            (x, y) -> x > 10.2 ? -9999 : 100 * (x - 10.0) + 10 * (47.0 - y));
    ElevationSurface surface = open(file);

    assertThat(surface.groundM(new GeoPoint(46.90025, 10.10075)).orElseThrow())
        .isEqualTo(100 * 0.10075 + 10 * 0.09975, within(1e-4));
    assertThat(surface.groundM(new GeoPoint(46.9, 10.25))).isEmpty();
    assertThat(surface.groundM(new GeoPoint(46.9, 10.3))).isEmpty();
    TerrainHorizon horizon =
        TerrainHorizon.around(
                surface, new GeoPoint(46.9, 10.15), TerrainOptions.STANDARD.withReachM(5_000))
            .orElseThrow();
    assertThat(horizon.flags(180)).containsExactly(SkylineFlag.CROSSED_VOID);
  }

  /** The cells between the last posts of one file and the first of the next belong to both. */
  @Test
  void filesSideBySideHaveNoSeam() throws IOException {
    TestTiff.Heights ridge = (x, y) -> x == 500_590 || x == 500_600 ? 80 : 0;
    double top = NORTHING_48 + 1000;
    Path whole =
        TestTiff.write(folder.resolve("w.tif"), UTM_33N, 499_000, top, 10, 400, 200, ridge);
    Path left = TestTiff.write(folder.resolve("l.tif"), UTM_33N, 499_000, top, 10, 160, 200, ridge);
    Path right =
        TestTiff.write(folder.resolve("r.tif"), UTM_33N, 500_600, top, 10, 240, 200, ridge);
    TerrainOptions options = TerrainOptions.STANDARD.withReachM(900);
    GeoPoint place = new GeoPoint(48.0, 15.0);

    TerrainHorizon one = TerrainHorizon.around(open(whole), place, options).orElseThrow();
    TerrainHorizon two = TerrainHorizon.around(open(left, right), place, options).orElseThrow();
    TerrainHorizon half = TerrainHorizon.around(open(left), place, options).orElseThrow();

    assertThat(two.skyline()).isEqualTo(one.skyline());
    assertThat(two.flags(180)).isEmpty();
    assertThat(two.altitudeDeg(180)).isGreaterThan(7.0);
    assertThat(half.flags(180)).containsExactly(SkylineFlag.LEFT_KNOWN_ELEVATION);
    assertThat(open(left, right).finestFirst()).hasSize(1);
  }

  @Test
  void anUnknownSystemSaysWhatToDo() throws IOException {
    Path file =
        TestTiff.write(folder.resolve("a.tif"), 31_370, 150_000, 170_000, 10, 20, 20, (x, y) -> 0);
    ElevationSurface.Opened opened = ElevationSurface.open(List.of(file), CACHE);

    assertThat(opened.problems())
        .singleElement()
        .asString()
        .startsWith("a.tif: its reference system is missing or not known here")
        .contains("gdalwarp");
  }
}
