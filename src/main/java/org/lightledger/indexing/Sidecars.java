package org.lightledger.indexing;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** The XMP file that an editing program leaves beside an image. */
final class Sidecars {
  /** Own choice, bytes: long editing histories make a megabyte. */
  static final long LARGEST_BYTES = 16L * 1024 * 1024;

  private Sidecars() {}

  /** {@code NAME.EXT.xmp}, which is this image's alone, else {@code NAME.xmp}. */
  static Optional<Path> of(Path image) throws IOException {
    String name = String.valueOf(image.getFileName());
    String base = baseOf(name);
    for (String sidecar : List.of(name + ".xmp", name + ".XMP", base + ".xmp", base + ".XMP")) {
      Path path = image.resolveSibling(sidecar);
      if (!path.equals(image) && Files.isRegularFile(path) && Files.size(path) <= LARGEST_BYTES) {
        return Optional.of(path);
      }
    }
    return Optional.empty();
  }

  /** Whether a file may be a sidecar by its name, in capitals or not as some disks have it. */
  static boolean isNameOfOne(String name) {
    return name.regionMatches(true, name.length() - 4, ".xmp", 0, 4);
  }

  /** A file's name up to its last dot. */
  static String baseOf(String name) {
    int dot = name.lastIndexOf('.');
    return dot <= 0 ? name : name.substring(0, dot);
  }
}
