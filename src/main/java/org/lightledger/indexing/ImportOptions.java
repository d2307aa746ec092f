package org.lightledger.indexing;

import java.time.ZoneId;
import org.jspecify.annotations.Nullable;

/**
 * How to import.
 *
 * @param cameraZone the zone that the camera's clock was set to, by the owner's word, or null
 * @param threads how many files are read at once, 1 or more
 */
public record ImportOptions(@Nullable ZoneId cameraZone, int threads) {

  /**
   * Checks the options.
   *
   * @throws IllegalArgumentException when there is no thread to read with
   */
  public ImportOptions {
    if (threads < 1) {
      throw new IllegalArgumentException("expected 1 or more threads, found " + threads);
    }
  }

  /**
   * Options for this machine.
   *
   * @return no camera zone, as many threads as processors
   */
  public static ImportOptions standard() {
    return new ImportOptions(null, Runtime.getRuntime().availableProcessors());
  }
}
