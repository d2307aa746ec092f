package org.lightledger.indexing;

import java.nio.file.Path;
import java.util.List;
import org.lightledger.shot.Problem;

/** Makes the lines of a report that carry no shot. */
final class Reports {
  private Reports() {}

  static FileReport unreadable(Path path, Problem problem) {
    return new FileReport(
        path, FileReport.Status.UNREADABLE, null, null, null, null, List.of(problem));
  }

  static FileReport joined(Path path, long shotId) {
    return new FileReport(path, FileReport.Status.JOINED, shotId, null, null, null, List.of());
  }

  static FileReport known(Path path, long shotId) {
    return new FileReport(path, FileReport.Status.KNOWN, shotId, null, null, null, List.of());
  }
}
