package org.lightledger.demo;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** The sample photos that the program carries, and the files about the region they show. */
final class SamplePhotos {
  private static final String RESOURCE = "/sample-photos";

  /** Elevation and a map extract: one of their formats is also one of photos. */
  private static final String REGION = "region";

  private SamplePhotos() {}

  /** Copies the photos into a folder; what is there already stays as it is. */
  static void unpackTo(Path folder) {
    unpack(root -> copy(root, root.resolve(REGION), folder));
  }

  /**
   * Copies the region's elevation files and map extract into a folder, which must not be among the
   * photos; what is there already stays as it is.
   */
  static void unpackRegionTo(Path folder) {
    unpack(root -> copy(root.resolve(REGION), null, folder));
  }

  /** Copies from what the program carries. */
  private interface Copying {
    void from(Path root) throws IOException;
  }

  private static void unpack(Copying copying) {
    URL resource = SamplePhotos.class.getResource(RESOURCE);
    if (resource == null) {
      throw new IllegalStateException("this build carries no sample photos; build it again");
    }
    try {
      URI uri = resource.toURI();
      if (uri.getScheme().equals("jar")) {
        try (FileSystem jar = FileSystems.newFileSystem(uri, Map.of())) {
          copying.from(jar.getPath(RESOURCE));
        }
      } else {
        copying.from(Path.of(uri));
      }
    } catch (IOException e) {
      throw new UncheckedIOException("the sample photos can not be copied", e);
    } catch (URISyntaxException e) {
      throw new IllegalStateException("the sample photos can not be found", e);
    }
  }

  private static void copy(Path from, @Nullable Path without, Path to) throws IOException {
    List<Path> sources;
    try (Stream<Path> walk = Files.walk(from)) {
      sources =
          walk.filter(Files::isRegularFile)
              .filter(file -> without == null || !file.startsWith(without))
              .toList();
    }
    for (Path source : sources) {
      Path target = to.resolve(from.relativize(source).toString());
      if (!Files.exists(target)) {
        Files.createDirectories(target.getParent());
        Files.copy(source, target);
      }
    }
  }
}
