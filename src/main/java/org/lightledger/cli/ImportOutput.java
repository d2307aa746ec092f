package org.lightledger.cli;

import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.indexing.FileReport;
import org.lightledger.indexing.ImportReport;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;
import org.lightledger.sun.SunDirection;

/** Writes an import's report for machines and for people. */
final class ImportOutput {
  private ImportOutput() {}

  static Map<String, @Nullable Object> json(ImportReport report) {
    return Json.fields()
        .put("read", report.files().size())
        .put("added", report.count(FileReport.Status.ADDED))
        .put("known", report.count(FileReport.Status.KNOWN))
        .put("joined", report.count(FileReport.Status.JOINED))
        .put("needsAttention", report.count(FileReport.Status.NEEDS_ATTENTION))
        .put("unreadable", report.count(FileReport.Status.UNREADABLE))
        .put("otherFiles", report.otherFiles())
        .put("spotsMade", report.spotsMade())
        .put("files", report.files().stream().map(ImportOutput::file).toList())
        .map();
  }

  private static Map<String, @Nullable Object> file(FileReport file) {
    Shot shot = file.shot();
    Json.Fields fields =
        Json.fields()
            .put("path", file.path().toString())
            .put("status", file.status().code())
            .put("shotId", file.shotId());
    if (shot != null) {
      CaptureTime.Known time = shot.time() instanceof CaptureTime.Known known ? known : null;
      Shot.Position position = shot.position();
      Shot.Facing facing = shot.facing();
      SunDirection sun = file.sun();
      fields
          .put("capturedAt", time == null ? null : Json.time(time.local()))
          .put("timeSource", time == null ? null : code(time.source()))
          .put("lat", position == null ? null : Json.coordinate(position.point().latitudeDeg()))
          .put("lon", position == null ? null : Json.coordinate(position.point().longitudeDeg()))
          .put("positionSource", position == null ? null : code(position.source()))
          .put("facingDeg", facing == null ? null : Json.angle(facing.bearing().trueDeg()))
          .put("facingSource", facing == null ? null : code(facing.source()))
          .put("ev100", Json.rounded(shot.evidence().exposure().ev100(), 2))
          .put("sunAzimuthDeg", sun == null ? null : Json.angle(sun.azimuth().trueDeg()))
          .put("sunAltitudeDeg", sun == null ? null : Json.angle(sun.apparentAltitudeDeg()))
          .put("spotId", file.spotId());
    }
    return fields
        .put(
            "problems",
            file.problems().stream()
                .map(
                    problem ->
                        Json.fields()
                            .put("kind", code(problem.kind()))
                            .put("message", problem.message())
                            .map())
                .toList())
        .map();
  }

  private static String code(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** One line with the counts. */
  static String summary(ImportReport report) {
    return String.format(
        Locale.ROOT,
        "%d files read: %d added, %d known, %d more files of a shot, %d need attention, %d unreadable; %d new spots%n",
        report.files().size(),
        report.count(FileReport.Status.ADDED),
        report.count(FileReport.Status.KNOWN),
        report.count(FileReport.Status.JOINED),
        report.count(FileReport.Status.NEEDS_ATTENTION),
        report.count(FileReport.Status.UNREADABLE),
        report.spotsMade());
  }

  static String text(ImportReport report) {
    StringBuilder text = new StringBuilder(summary(report));
    if (report.cancelled()) {
      text.append(
          String.format(Locale.ROOT, "Stopped early; import the same folder again to go on.%n"));
    }
    for (FileReport file : report.files()) {
      for (Problem problem : file.problems()) {
        text.append(
            String.format(Locale.ROOT, "  %s: %s%n", file.path().getFileName(), problem.message()));
      }
    }
    return text.toString();
  }
}
