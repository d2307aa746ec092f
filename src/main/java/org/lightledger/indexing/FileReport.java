package org.lightledger.indexing;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;
import org.lightledger.sun.SunDirection;

/**
 * What became of one file.
 *
 * @param path the file
 * @param status what became of it
 * @param shotId the shot it holds, or null when it holds none
 * @param shot what was concluded, or null when it holds no shot or the shot was known already
 * @param sun where the sun stood, or null when time or place is not known
 * @param spotId the spot the shot joined, or null
 * @param problems everything the owner should know
 */
public record FileReport(
    Path path,
    Status status,
    @Nullable Long shotId,
    @Nullable Shot shot,
    @Nullable SunDirection sun,
    @Nullable Long spotId,
    List<Problem> problems) {

  /** Keeps an own copy of the problems. */
  public FileReport {
    problems = List.copyOf(problems);
  }

  /**
   * Whether the owner should look at it.
   *
   * @return true when it gave no shot, or one that waits for the owner
   */
  public boolean needsEye() {
    return status == Status.UNREADABLE || status == Status.NEEDS_ATTENTION;
  }

  /** What can become of a file. */
  public enum Status {
    /** It holds a new shot that is placed in time and space. */
    ADDED("added"),
    /** It holds a shot that the ledger has already. */
    KNOWN("known"),
    /** It is one more file of a shot that the ledger has: a raw file's JPEG, a burst. */
    JOINED("joined"),
    /** It holds a new shot that waits for the owner. */
    NEEDS_ATTENTION("needs-attention"),
    /** No shot could be read from it. */
    UNREADABLE("unreadable");

    private final String code;

    Status(String code) {
      this.code = code;
    }

    /**
     * The word in machine output.
     *
     * @return for example "needs-attention"
     */
    public String code() {
      return code;
    }
  }
}
