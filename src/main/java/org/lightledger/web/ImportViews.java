package org.lightledger.web;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.lightledger.indexing.FileReport;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;

/** Turns what imports did into what their page shows. */
final class ImportViews {
  private static final int MOST_ROWS = 400;

  private ImportViews() {}

  static ImportPage.JobView job(ImportJobs.Job job) {
    List<FileReport> files = job.files();
    Path folder = job.folder();
    return new ImportPage.JobView(
        job.id(),
        folder.toString(),
        job.running(),
        state(job),
        job.total(),
        files.size(),
        rate(job, files.size()),
        report(files, path -> relative(folder, path)));
  }

  private static String state(ImportJobs.Job job) {
    return switch (job.state()) {
      case WALKING -> "looking for files";
      case READING -> "reading";
      case DONE -> "done";
      case CANCELLED -> "cancelled; what was read stays";
      case FAILED -> "stopped by an error; what was read stays";
    };
  }

  private static String rate(ImportJobs.Job job, int done) {
    double seconds = job.seconds();
    if (job.state() != ImportJobs.Job.State.READING || done < 10 || seconds < 1) {
      return "";
    }
    double perSecond = done / seconds;
    long left = Math.round((job.total() - done) / perSecond);
    return String.format(
        Locale.ROOT,
        "%.0f a second, about %s left",
        perSecond,
        left < 90 ? Words.count((int) left, "second", "seconds") : left / 60 + " minutes");
  }

  private static String relative(Path folder, Path path) {
    Path base = folder.toAbsolutePath().normalize();
    return path.startsWith(base) ? base.relativize(path).toString() : path.toString();
  }

  /** Files that need a look come first. */
  static ImportPage.ReportView report(List<FileReport> files, Function<Path, String> names) {
    List<FileReport> order = new ArrayList<>();
    List<FileReport.Status> firstToLast =
        List.of(
            FileReport.Status.UNREADABLE,
            FileReport.Status.NEEDS_ATTENTION,
            FileReport.Status.ADDED,
            FileReport.Status.JOINED,
            FileReport.Status.KNOWN);
    for (FileReport.Status status : firstToLast) {
      files.stream().filter(file -> file.status() == status).forEach(order::add);
    }
    int hidden = Math.max(0, order.size() - MOST_ROWS);
    return new ImportPage.ReportView(
        count(files, FileReport.Status.ADDED),
        count(files, FileReport.Status.KNOWN) + count(files, FileReport.Status.JOINED),
        count(files, FileReport.Status.NEEDS_ATTENTION),
        count(files, FileReport.Status.UNREADABLE),
        order.stream().limit(MOST_ROWS).map(file -> row(file, names)).toList(),
        hidden == 0 ? "" : Words.count(hidden, "more file is", "more files are") + " not listed.");
  }

  private static int count(List<FileReport> files, FileReport.Status status) {
    return (int) files.stream().filter(file -> file.status() == status).count();
  }

  private static ImportPage.FileRow row(FileReport file, Function<Path, String> names) {
    Long spotId = file.spotId();
    return new ImportPage.FileRow(
        names.apply(file.path()),
        file.status().code(),
        switch (file.status()) {
          case ADDED -> "added";
          case JOINED -> "one more file of a shot";
          case KNOWN -> "known already";
          case NEEDS_ATTENTION -> "needs attention";
          case UNREADABLE -> "unreadable";
        },
        when(file.shot()),
        spotId == null ? null : "/spots/" + spotId,
        file.problems().stream().map(Problem::message).toList());
  }

  private static String when(@Nullable Shot shot) {
    return shot != null && shot.time() instanceof CaptureTime.Known known
        ? Words.moment(known.local())
        : "";
  }
}
