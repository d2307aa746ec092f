package org.lightledger.map.osm;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.zip.GZIPInputStream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.map.FeatureKind;
import org.lightledger.map.MapObstruction;
import org.lightledger.skyline.buildings.HeightSource;
import org.lightledger.skyline.buildings.ObstructionKind;
import org.lightledger.testing.Reference;

/** Real extracts, beside what other programs find in them. */
class ReferenceExtractTest {
  @TempDir Path folder;

  private static Path file(String name) {
    return Reference.path("extract/" + name + ".osm.gz");
  }

  /**
   * GDAL counts areas with building=* and, apart from them, parts; lines with highway=*. Both
   * programs take closed ways and multipolygons, and a closed way on which one travels as a line.
   * (There are more tags than areas: those on nodes, and on open ways.)
   */
  @ParameterizedTest
  @ValueSource(strings = {"monaco", "berlin-siegessaeule", "krems"})
  void buildingsAndWaysAreThoseThatGdalFinds(String name) throws Exception {
    String ogrinfo = program("ogrinfo");
    Path plain = folder.resolve(name + ".osm");
    try (InputStream in = new GZIPInputStream(Files.newInputStream(file(name)))) {
      Files.copy(in, plain);
    }
    Shown shown = Shown.of(OsmExtract.read(file(name)));
    Set<String> parts = partsIn(name);

    long buildings =
        shown.obstructions.stream()
                .filter(found -> found.obstruction().kind() == ObstructionKind.BUILDING)
                .filter(found -> !parts.contains(found.obstruction().id()))
                .count()
            + shown.count(FeatureKind.BUILDING_OUTLINE);
    assertThat(buildings)
        .isEqualTo(
            count(ogrinfo, plain, "SELECT count(*) FROM multipolygons WHERE building IS NOT NULL"));
    long ways =
        shown.features.stream()
            .filter(found -> found.kind().form() == FeatureKind.Form.LINE)
            .filter(
                found ->
                    !Set.of(
                            FeatureKind.STREAM,
                            FeatureKind.RIVER,
                            FeatureKind.PIER,
                            FeatureKind.RAIL,
                            FeatureKind.TRAM)
                        .contains(found.kind()))
            .count();
    assertThat(ways)
        .isEqualTo(count(ogrinfo, plain, "SELECT count(*) FROM lines WHERE highway IS NOT NULL"));
  }

  private static Set<String> partsIn(String name) {
    Set<String> parts = new TreeSet<>();
    for (Map<String, String> row : Reference.csv("extract/height-tags.csv")) {
      if (row.get("extract").equals(name)
          && !row.get("building:part").isEmpty()
          && row.get("building").isEmpty()) {
        parts.add(row.get("element") + "/" + row.get("id"));
      }
    }
    return parts;
  }

  @Test
  void heightsAreThoseOfTheTags() throws IOException {
    Map<String, MapObstruction> found = new HashMap<>();
    Shown.of(OsmExtract.read(file("berlin-siegessaeule")))
        .obstructions
        .forEach(house -> found.put(house.obstruction().id(), house));
    int compared = 0;
    for (Map<String, String> row : Reference.csv("extract/height-tags.csv")) {
      if (row.get("building").isEmpty() && row.get("building:part").isEmpty()
          || row.get("height").isEmpty()) {
        continue;
      }
      MapObstruction house = found.get(row.get("element") + "/" + row.get("id"));
      assertThat(house).as(row.toString()).isNotNull();
      assertThat(house.obstruction().heightM())
          .as(row.toString())
          .isEqualTo(Double.parseDouble(row.get("height")));
      assertThat(house.obstruction().minHeightM())
          .as(row.toString())
          .isEqualTo(
              row.get("min_height").isEmpty() ? 0.0 : Double.parseDouble(row.get("min_height")));
      assertThat(house.obstruction().heightSource()).isEqualTo(HeightSource.GIVEN);
      compared++;
    }
    assertThat(compared).isGreaterThan(100);
  }

  @Test
  void thePbfThatOsmiumMakesHoldsTheSame() throws Exception {
    String osmium = program("osmium");
    for (String name : List.of("monaco", "krems", "berlin-siegessaeule")) {
      Path pbf = folder.resolve(name + ".osm.pbf");
      run(osmium, "cat", "-o", pbf.toString(), file(name).toString());
      assertSame(OsmExtract.read(pbf), OsmExtract.read(file(name)));
    }
  }

  @Test
  void thePbfThatTheLibraryWritesHoldsTheSame() throws IOException {
    Path pbf = folder.resolve("berlin.osm.pbf");
    Files.write(pbf, PbfWriter.of(file("berlin-siegessaeule")));
    assertSame(OsmExtract.read(pbf), OsmExtract.read(file("berlin-siegessaeule")));
  }

  private static void assertSame(OsmExtract pbf, OsmExtract xml) {
    Shown ofPbf = Shown.of(pbf);
    Shown ofXml = Shown.of(xml);
    assertThat(pbf.bounds()).isEqualTo(xml.bounds());
    assertThat(ofPbf.features).containsExactlyElementsOf(ofXml.features);
    assertThat(ofPbf.obstructions).containsExactlyElementsOf(ofXml.obstructions);
    assertThat(pbf.problems()).isEqualTo(xml.problems());
  }

  private static long count(String ogrinfo, Path file, String sql) throws Exception {
    String output = run(ogrinfo, "-q", file.toString(), "-sql", sql);
    return Long.parseLong(output.substring(output.lastIndexOf('=') + 1).strip());
  }

  private static String run(String... command) throws IOException, InterruptedException {
    Process process =
        new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.DISCARD).start();
    String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).isZero();
    return output;
  }

  /** Where a program is missing the test is skipped, except on the machine that must have it. */
  private static String program(String name) {
    Optional<Path> found =
        Arrays.stream(System.getenv("PATH").split(File.pathSeparator))
            .map(directory -> Path.of(directory, name))
            .filter(Files::isExecutable)
            .findFirst();
    if (found.isEmpty() && "true".equals(System.getenv("CI"))) {
      throw new AssertionError("expected " + name + " on the path; install it");
    }
    Assumptions.assumeTrue(found.isPresent(), "skipped: found no " + name + " on the path");
    return found.orElseThrow().toString();
  }
}
