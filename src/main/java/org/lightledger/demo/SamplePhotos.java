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

/** The sample photos that the program carries. */
final class SamplePhotos {
  private static final String RESOURCE = "/sample-photos";

  private SamplePhotos() {}

  /** Copies the photos into a folder; what is there already stays as it is. */
  static void unpackTo(Path folder) {
    URL resource = SamplePhotos.class.getResource(RESOURCE);
    if (resource == null) {
      throw new IllegalStateException("this build carries no sample photos; build it again");
    }
    try {
      URI uri = resource.toURI();
      if (uri.getScheme().equals("jar")) {
        try (FileSystem jar = FileSystems.newFileSystem(uri, Map.of())) {
          copy(jar.getPath(RESOURCE), folder);
        }
      } else {
        copy(Path.of(uri), folder);
      }
    } catch (IOException e) {
      throw new UncheckedIOException("the sample photos can not be copied to " + folder, e);
    } catch (URISyntaxException e) {
      throw new IllegalStateException("the sample photos can not be found", e);
    }
  }

  private static void copy(Path from, Path to) throws IOException {
    List<Path> sources;
    try (Stream<Path> walk = Files.walk(from)) {
      sources = walk.filter(Files::isRegularFile).toList();
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
