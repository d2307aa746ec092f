package org.lightledger.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The region's files are carried, and stay apart from the photos. */
class SampleRegionTest {
  @TempDir Path folder;

  private static List<String> names(Path in) throws IOException {
    try (Stream<Path> walk = Files.walk(in)) {
      return walk.filter(Files::isRegularFile).map(file -> file.getFileName().toString()).toList();
    }
  }

  @Test
  void photosAreUnpackedWithoutTheRegion() throws IOException {
    SamplePhotos.unpackTo(folder);

    assertThat(folder.resolve("region")).doesNotExist();
    assertThat(names(folder))
        .contains("spots.csv")
        .noneMatch(name -> name.endsWith(".tif") || name.endsWith(".osm.gz"));
  }

  @Test
  void theRegionIsUnpackedAlone() throws IOException {
    SamplePhotos.unpackRegionTo(folder);

    assertThat(names(folder))
        .containsExactlyInAnyOrder(
            "brezaluz-hills-30m.tif",
            "brezaluz-land-90m.tif",
            "brezaluz-town-5m.tif",
            "brezaluz-town.osm.gz");
    for (String name : names(folder)) {
      assertThat(folder.resolve(name))
          .hasSameBinaryContentAs(Path.of("sample-photos", "region", name));
    }
  }
}
