package org.lightledger.surroundings;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import org.lightledger.skyline.terrain.ElevationSurface;

/** Looks whether elevation can be used before the ledger points at it. */
public final class ElevationCheck {
  private ElevationCheck() {}

  /**
   * Opens everything once.
   *
   * @param paths files and folders
   * @return how many elevation files they are
   * @throws IllegalArgumentException naming every file that can not be used, or that there is none
   * @throws UncheckedIOException when a folder can not be listed
   */
  public static int files(List<Path> paths) {
    try {
      ElevationSurface.Opened opened =
          ElevationSurface.open(paths, ElevationSurface.DEFAULT_CACHE_BYTES);
      if (!opened.problems().isEmpty()) {
        throw new IllegalArgumentException(String.join("; ", opened.problems()));
      }
      if (opened.files() == 0) {
        throw new IllegalArgumentException(
            "expected .hgt, .hgt.zip, .tif or .tiff files, found none in " + paths);
      }
      return opened.files();
    } catch (IOException e) {
      throw new UncheckedIOException("the elevation can not be read", e);
    }
  }
}
