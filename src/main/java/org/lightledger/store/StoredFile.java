package org.lightledger.store;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.Problem;

/**
 * A file that an import met.
 *
 * @param path where it lies
 * @param sizeBytes its length, bytes, 0 or more
 * @param modified when it was last changed, to the millisecond
 * @param sha256 fingerprint of its content, 64 hexadecimal digits in lower case, or null when it
 *     could not be read
 * @param status what became of it
 * @param shotId the shot that came of it, or null
 * @param problems what stood in the way
 */
public record StoredFile(
    Path path,
    long sizeBytes,
    Instant modified,
    @Nullable String sha256,
    FileStatus status,
    @Nullable Long shotId,
    List<Problem> problems) {

  /** Cuts the time to the millisecond and keeps an own copy of the problems. */
  public StoredFile {
    modified = Instant.ofEpochMilli(modified.toEpochMilli());
    problems = List.copyOf(problems);
  }
}
