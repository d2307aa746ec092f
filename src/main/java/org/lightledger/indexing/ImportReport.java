package org.lightledger.indexing;

import java.util.List;

/**
 * What an import did.
 *
 * @param files a line for each image file, in the order of reading
 * @param otherFiles how many files were passed over because neither their name nor their content is
 *     an image's
 * @param spotsMade how many spots were made
 * @param cancelled whether the owner stopped it before its end
 */
public record ImportReport(
    List<FileReport> files, int otherFiles, int spotsMade, boolean cancelled) {

  /** Keeps an own copy of the lines. */
  public ImportReport {
    files = List.copyOf(files);
  }

  /**
   * How many files came out in a way.
   *
   * @param status the way
   * @return the count
   */
  public int count(FileReport.Status status) {
    return (int) files.stream().filter(file -> file.status() == status).count();
  }
}
