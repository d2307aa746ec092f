package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import io.javalin.http.HttpStatus;
import io.javalin.http.UploadedFile;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.indexing.ImportOptions;
import org.lightledger.indexing.ImportReport;
import org.lightledger.indexing.JoinDistance;

/** Imports of folders and uploads. */
final class ImportRoutes {
  private static final int MOST_FILES = 500;

  private final House house;
  private final ImportJobs jobs;
  private final Uploads uploads;

  ImportRoutes(House house, ImportJobs jobs, Uploads uploads) {
    this.house = house;
    this.jobs = jobs;
    this.uploads = uploads;
  }

  void register(RoutesConfig routes) {
    routes.get("/import", ctx -> show(ctx, "", null, List.of(), null));
    routes.post("/import/files", this::files);
    routes.post("/import/folder", this::folder);
    routes.post("/import/join-distance", this::joinDistance);
    routes.get("/import/jobs/{id}", this::job);
    routes.post("/import/jobs/{id}/cancel", this::cancel);
  }

  private void show(
      Context ctx,
      String folder,
      @Nullable String joinDistance,
      List<FieldProblem> problems,
      ImportPage.@Nullable ReportView report) {
    ImportJobs.Job job = jobs.latest();
    ImportPage page =
        new ImportPage(
            folder,
            problems,
            job == null ? null : ImportViews.job(job),
            report,
            WebServer.MOST_UPLOAD_MB + " MB",
            joinDistance == null
                ? Words.plain(house.ledger().read(JoinDistance::of))
                : joinDistance,
            ctx.queryParam("saved") != null);
    house.show(ctx, "import", "Import", Frame.Room.IMPORT, page);
  }

  private void joinDistance(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    Double metres = fields.number("join", "Distance", 0, ImportOptions.MOST_JOIN_DISTANCE_M, " m");
    if (metres == null && fields.problems().isEmpty()) {
      fields.problem("join", "Distance", "expected a number of metres, found nothing");
    }
    if (metres == null) {
      ctx.status(422);
      show(ctx, "", fields.raw("join"), fields.problems(), null);
      return;
    }
    house.ledger().change(session -> JoinDistance.set(session, metres));
    ctx.redirect("/import?saved=1#grouping", HttpStatus.SEE_OTHER);
  }

  private void files(Context ctx) {
    if (ctx.contentLength() > WebServer.MOST_UPLOAD_MB * 1_000_000L) {
      throw new HttpResponseException(HttpStatus.CONTENT_TOO_LARGE.getCode());
    }
    List<UploadedFile> sent =
        ctx.uploadedFiles("files").stream().filter(file -> !file.filename().isEmpty()).toList();
    if (sent.isEmpty() || sent.size() > MOST_FILES) {
      throw PageProblem.badFields(
          List.of(
              new FieldProblem(
                  "files",
                  "Files",
                  "expected 1 to " + MOST_FILES + " files at once, found " + sent.size())));
    }
    Uploads.Kept kept = uploads.keep(sent);
    ImportReport report = jobs.now(kept.paths());
    uploads.tidy(kept, report, house.ledger());
    ImportPage.ReportView view = ImportViews.report(report, kept::nameOf);
    if (Pages.wantsPart(ctx)) {
      house.pages().part(ctx, "rowspart", new ImportPage.RowsPart(view, house.waiting()));
    } else {
      show(ctx, "", null, List.of(), view);
    }
  }

  private void folder(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    String text = fields.required("folder", "Folder", 4000);
    Path folder = text.isEmpty() ? null : readable(fields, text);
    if (folder == null) {
      ctx.status(422);
      show(ctx, text, null, fields.problems(), null);
      return;
    }
    ImportJobs.Job job = jobs.start(folder, fields.ticked("watch"));
    ctx.redirect("/import?job=" + job.id() + "#job", HttpStatus.SEE_OTHER);
  }

  private static @Nullable Path readable(Fields fields, String text) {
    try {
      Path path = Path.of(text);
      if (path.isAbsolute() && Files.isReadable(path)) {
        return path;
      }
    } catch (InvalidPathException e) {
      fields.problem(
          "folder", "Folder", "expected the path of a folder, found " + Fields.quoted(text));
      return null;
    }
    fields.problem(
        "folder",
        "Folder",
        "expected the full path of a folder that exists and that you may read, found "
            + Fields.quoted(text));
    return null;
  }

  private void job(Context ctx) {
    ImportPage.JobView view = ImportViews.job(jobs.job(House.id(ctx, "id")));
    if (Pages.wantsPart(ctx)) {
      part(ctx, view);
    } else {
      ctx.redirect("/import#job", HttpStatus.SEE_OTHER);
    }
  }

  private void cancel(Context ctx) {
    ImportJobs.Job job = jobs.job(House.id(ctx, "id"));
    job.cancel();
    if (Pages.wantsPart(ctx)) {
      part(ctx, ImportViews.job(job));
    } else {
      ctx.redirect("/import#job", HttpStatus.SEE_OTHER);
    }
  }

  private void part(Context ctx, ImportPage.JobView view) {
    house.pages().part(ctx, "jobpart", new ImportPage.JobPart(view, house.waiting()));
  }
}
