package org.lightledger.indexing;

import java.util.List;
import java.util.Map;

/**
 * What an import did.
 *
 * @param files a line for each image file, in the order of reading; of large imports only some, see
 *     {@link Tally}
 * @param counts how many files came out in each way
 * @param otherFiles how many files were passed over because neither their name nor their content is
 *     an image's
 * @param spotsMade how many spots were made
 * @param cancelled whether the owner stopped it before its end
 */
public record ImportReport(
    List<FileReport> files,
    Map<FileReport.Status, Integer> counts,
    int otherFiles,
    int spotsMade,
    boolean cancelled) {

  /** Keeps own copies. */
  public ImportReport {
    files = List.copyOf(files);
    counts = Map.copyOf(counts);
  }

  /**
   * How many files came out in a way.
   *
   * @param status the way
   * @return the count
   */
  public int count(FileReport.Status status) {
    return counts.getOrDefault(status, 0);
  }

  /**
   * How many image files there were.
   *
   * @return the count, of which {@link #files} may hold only some
   */
  public int read() {
    return counts.values().stream().mapToInt(Integer::intValue).sum();
  }
}
