package org.lightledger.scenario.region;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.terrain.ElevationSurface;

/** The region's files are what the generator writes, always the same, small and sound. */
class WriteSampleRegionTest {
  private static final Path CARRIED = Path.of("sample-photos", "region");
  private static final List<String> FILES =
      List.of(
          WriteSampleRegion.NEAR,
          WriteSampleRegion.WIDE,
          WriteSampleRegion.EXTRACT,
          WriteSampleRegion.TOWN);

  @TempDir static Path folder;

  @BeforeAll
  static void write() throws IOException {
    WriteSampleRegion.write(folder.resolve("one"));
  }

  @Test
  void areTheSameEachTime() throws IOException {
    WriteSampleRegion.write(folder.resolve("two"));
    for (String file : FILES) {
      assertThat(folder.resolve("two").resolve(file))
          .hasSameBinaryContentAs(folder.resolve("one").resolve(file));
    }
  }

  /** By content, for how well it packs depends on the machine's library. */
  @Test
  void areThoseThatTheProgramCarries() throws IOException {
    try (Stream<Path> carried = Files.list(CARRIED)) {
      assertThat(carried.map(file -> file.getFileName().toString()))
          .containsExactlyInAnyOrderElementsOf(FILES);
    }
    for (String file : FILES) {
      Path written = folder.resolve("one").resolve(file);
      if (file.equals(WriteSampleRegion.EXTRACT)) {
        assertThat(text(CARRIED.resolve(file))).isEqualTo(text(written));
      } else {
        assertThat(heights(CARRIED.resolve(file)))
            .isEqualTo(heights(written))
            .anyMatch(OptionalDouble::isPresent);
      }
    }
  }

  /** Heights at places all over a file and beyond its edges. */
  private static List<OptionalDouble> heights(Path tiff) throws IOException {
    ElevationSurface surface =
        ElevationSurface.open(List.of(tiff), ElevationSurface.DEFAULT_CACHE_BYTES).surface();
    List<OptionalDouble> heights = new ArrayList<>();
    for (double reachDeg : new double[] {0.009, 0.11, 0.64}) {
      for (int row = -60; row <= 60; row++) {
        for (int col = -60; col <= 60; col++) {
          heights.add(
              surface.groundM(
                  new GeoPoint(41.93 + row * reachDeg / 60, -6.42 + col * reachDeg / 60)));
        }
      }
    }
    return heights;
  }

  private static String text(Path gzip) throws IOException {
    try (InputStream in = new GZIPInputStream(Files.newInputStream(gzip))) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  @Test
  void areSmall() throws IOException {
    long sum = 0;
    for (String file : FILES) {
      sum += Files.size(CARRIED.resolve(file));
    }
    assertThat(sum).isLessThan(1_500_000);
  }

  @Test
  void theExtractRefersOnlyToWhatItHoldsAndToNothingReal() throws IOException {
    String xml = text(CARRIED.resolve(WriteSampleRegion.EXTRACT));
    Set<Long> nodes = ids(xml, "<node id=\"(\\d+)\"");
    Set<Long> ways = ids(xml, "<way id=\"(\\d+)\"");
    assertThat(nodes).hasSizeGreaterThan(1000).allMatch(id -> id >= OsmXml.FIRST_ID);
    assertThat(ways).hasSizeGreaterThan(100).allMatch(id -> id >= OsmXml.FIRST_ID);
    assertThat(nodes).containsAll(ids(xml, "<nd ref=\"(\\d+)\""));
    assertThat(ways).containsAll(ids(xml, "<member type=\"way\" ref=\"(\\d+)\""));
  }

  private static Set<Long> ids(String xml, String pattern) {
    Set<Long> ids = new HashSet<>();
    Matcher matcher = Pattern.compile(pattern).matcher(xml);
    while (matcher.find()) {
      ids.add(Long.parseLong(matcher.group(1)));
    }
    return ids;
  }

  @Test
  void theExtractHoldsWhatAMapHolds() throws IOException {
    String xml = text(CARRIED.resolve(WriteSampleRegion.EXTRACT));
    for (String tag :
        Arrays.asList(
            "building=house",
            "building=roof",
            "building:part=arcade",
            "roof:shape=gabled",
            "barrier=wall",
            "barrier=hedge",
            "natural=tree_row",
            "natural=wood",
            "natural=tree",
            "waterway=river",
            "water=lake",
            "leisure=park",
            "bridge=yes",
            "amenity=parking",
            "amenity=toilets",
            "amenity=cafe",
            "highway=residential",
            "highway=track",
            "highway=path",
            "surface=sett")) {
      String[] parts = tag.split("=", 2);
      assertThat(xml).contains("<tag k=\"%s\" v=\"%s\"".formatted(parts[0], parts[1]));
    }
  }
}
