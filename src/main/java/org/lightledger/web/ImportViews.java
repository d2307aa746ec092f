package org.lightledger.web;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.lightledger.indexing.FileReport;
import org.lightledger.indexing.ImportReport;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;

/** Turns what imports did into what their page shows. */
final class ImportViews {
  private static final int MOST_ROWS = 400;

  private ImportViews() {}

  static ImportPage.JobView job(ImportJobs.Job job) {
    ImportJobs.Job.Look look = job.look();
    Path folder = job.folder();
    List<FileReport> shown = new ArrayList<>(look.problems());
    shown.addAll(look.last());
    return new ImportPage.JobView(
        job.id(),
        folder.toString(),
        job.running(),
        job.state() == ImportJobs.Job.State.WATCHING,
        state(job),
        look.total(),
        look.passed(),
        rate(look),
        report(shown, look.counts(), path -> relative(folder, path)));
  }

  private static String state(ImportJobs.Job job) {
    return switch (job.state()) {
      case WALKING -> "looking for files";
      case READING -> "reading";
      case WATCHING -> "watching for more";
      case DONE -> "done";
      case CANCELLED -> "ended; what was read stays, and the same folder goes on from there";
      case FAILED -> "stopped by an error; what was read stays";
    };
  }

  private static String rate(ImportJobs.Job.Look look) {
    if (look.perSecond().isEmpty()) {
      return "";
    }
    double perSecond = look.perSecond().getAsDouble();
    long leftS = Math.round((look.total() - look.passed()) / perSecond);
    return String.format(
        Locale.ROOT,
        "%.0f a second, about %s left",
        perSecond,
        leftS < 90
            ? Words.count((int) leftS, "second", "seconds")
            : Words.count((int) (leftS / 60), "minute", "minutes"));
  }

  private static String relative(Path folder, Path path) {
    Path base = folder.toAbsolutePath().normalize();
    return path.startsWith(base) ? base.relativize(path).toString() : path.toString();
  }

  static ImportPage.ReportView report(ImportReport report, Function<Path, String> names) {
    return report(report.files(), report.counts(), names);
  }

  /** Files that need a look come first. */
  private static ImportPage.ReportView report(
      List<FileReport> files,
      Map<FileReport.Status, Integer> counts,
      Function<Path, String> names) {
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
    int all = counts.values().stream().mapToInt(Integer::intValue).sum();
    int hidden = all - Math.min(order.size(), MOST_ROWS);
    return new ImportPage.ReportView(
        counts.getOrDefault(FileReport.Status.ADDED, 0),
        counts.getOrDefault(FileReport.Status.KNOWN, 0)
            + counts.getOrDefault(FileReport.Status.JOINED, 0),
        counts.getOrDefault(FileReport.Status.NEEDS_ATTENTION, 0),
        counts.getOrDefault(FileReport.Status.UNREADABLE, 0),
        rows(order.subList(0, Math.min(order.size(), MOST_ROWS)), names),
        hidden <= 0 ? "" : Words.count(hidden, "more file is", "more files are") + " not listed.");
  }

  /** Files that have no place and time of their own to tell and say the same are one row. */
  private static List<ImportPage.FileRow> rows(
      List<FileReport> files, Function<Path, String> names) {
    Map<Object, List<FileReport>> alike = new LinkedHashMap<>();
    for (FileReport file : files) {
      boolean bare =
          file.spotId() == null && when(file.shot()).isEmpty() && !file.problems().isEmpty();
      Object key = bare ? List.of(file.status(), messages(file)) : file;
      alike.computeIfAbsent(key, any -> new ArrayList<>()).add(file);
    }
    return alike.values().stream().map(same -> row(same, names)).toList();
  }

  private static ImportPage.FileRow row(List<FileReport> same, Function<Path, String> names) {
    FileReport file = same.get(0);
    Long spotId = file.spotId();
    return new ImportPage.FileRow(
        names.apply(file.path()),
        same.stream().skip(1).map(FileReport::path).map(names).toList(),
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
        messages(file));
  }

  private static List<String> messages(FileReport file) {
    return file.problems().stream().map(Problem::message).toList();
  }

  private static String when(@Nullable Shot shot) {
    return shot != null && shot.time() instanceof CaptureTime.Known known
        ? Words.moment(known.local())
        : "";
  }
}
