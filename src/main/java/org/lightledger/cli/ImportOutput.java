package org.lightledger.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
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

  /** Machine output whose lines are written as files are done, so that none are held. */
  static final class Stream {
    private final PrintWriter out;
    private final JsonGenerator json;

    Stream(PrintWriter out) {
      this.out = out;
      this.json = Json.generator(out);
      write(
          () -> {
            json.writeStartObject();
            json.writeArrayFieldStart("files");
          });
    }

    void add(FileReport report) {
      write(() -> json.writePOJO(file(report)));
    }

    void end(ImportReport report) {
      write(
          () -> {
            json.writeEndArray();
            json.writeNumberField("read", report.read());
            json.writeNumberField("added", report.count(FileReport.Status.ADDED));
            json.writeNumberField("known", report.count(FileReport.Status.KNOWN));
            json.writeNumberField("joined", report.count(FileReport.Status.JOINED));
            json.writeNumberField(
                "needsAttention", report.count(FileReport.Status.NEEDS_ATTENTION));
            json.writeNumberField("unreadable", report.count(FileReport.Status.UNREADABLE));
            json.writeNumberField("otherFiles", report.otherFiles());
            json.writeNumberField("spotsMade", report.spotsMade());
            json.writeBooleanField("cancelled", report.cancelled());
            json.writeEndObject();
            json.close();
          });
      out.println();
      out.flush();
    }

    private interface Writing {
      void run() throws IOException;
    }

    private static void write(Writing writing) {
      try {
        writing.run();
      } catch (IOException e) {
        throw new UncheckedIOException("machine output can not be written", e);
      }
    }
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
        "%d files read: %d added, %d known, %d more files of a shot, %d need attention, %d unreadable;"
            + " %d new spots%n",
        report.read(),
        report.count(FileReport.Status.ADDED),
        report.count(FileReport.Status.KNOWN),
        report.count(FileReport.Status.JOINED),
        report.count(FileReport.Status.NEEDS_ATTENTION),
        report.count(FileReport.Status.UNREADABLE),
        report.spotsMade());
  }

  static String text(ImportReport report) {
    StringBuilder text = new StringBuilder(summary(report));
    for (FileReport file : report.files()) {
      for (Problem problem : file.problems()) {
        text.append(
            String.format(Locale.ROOT, "  %s: %s%n", file.path().getFileName(), problem.message()));
      }
    }
    long needing =
        report.count(FileReport.Status.UNREADABLE)
            + report.count(FileReport.Status.NEEDS_ATTENTION)
            - report.files().stream().filter(FileReport::needsEye).count();
    if (needing > 0) {
      text.append(
          String.format(
              Locale.ROOT, "  and %d more files that need a look; --json lists all%n", needing));
    }
    return text.toString();
  }
}
