package org.lightledger.surroundings;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.skyline.terrain.ElevationSurface;

/** The elevation that the ledger points at, opened once. Safe for use by several threads. */
final class Elevation {
  private List<Path> paths = List.of();
  private @Nullable ElevationSurface surface;

  /**
   * The surface of some files.
   *
   * @param wanted files and folders
   * @return the surface, or null when there are no files
   * @throws UnreadableElevationException when one of them can not be used
   */
  synchronized @Nullable ElevationSurface of(List<Path> wanted) {
    if (!wanted.equals(paths)) {
      surface = wanted.isEmpty() ? null : open(wanted);
      paths = List.copyOf(wanted);
    }
    for (Path path : wanted) {
      if (!Files.isReadable(path)) {
        paths = List.of();
        surface = null;
        throw new UnreadableElevationException(
            path
                + ": expected the elevation that was added to the ledger, found nothing that can be"
                + " read; bring it back, or remove it with: terrain remove");
      }
    }
    return surface;
  }

  private static ElevationSurface open(List<Path> wanted) {
    try {
      ElevationSurface.Opened opened =
          ElevationSurface.open(wanted, ElevationSurface.DEFAULT_CACHE_BYTES);
      if (!opened.problems().isEmpty()) {
        throw new UnreadableElevationException(String.join("; ", opened.problems()));
      }
      return opened.surface();
    } catch (IOException e) {
      throw new UnreadableElevationException(
          "the folders of elevation can not be listed: " + e.getMessage());
    }
  }
}
