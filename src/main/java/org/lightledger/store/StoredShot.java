package org.lightledger.store;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.Shot;
import org.lightledger.sun.SunDirection;

/**
 * A shot in the ledger.
 *
 * @param id the ledger's number of the shot
 * @param sha256 fingerprint of the file's content, 64 hexadecimal digits in lower case
 * @param shot what is known of it
 * @param sun where the sun stood, or null when time or place is not known
 * @param spotId the spot it was taken at, or null
 * @param files the files that hold it, by path; empty when none is left
 */
public record StoredShot(
    long id,
    String sha256,
    Shot shot,
    @Nullable SunDirection sun,
    @Nullable Long spotId,
    List<Path> files) {

  /** Keeps an own copy of the files. */
  public StoredShot {
    files = List.copyOf(files);
  }
}
