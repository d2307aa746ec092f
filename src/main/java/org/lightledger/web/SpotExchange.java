package org.lightledger.web;

import io.javalin.http.Context;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lightledger.exchange.ExchangedSpot;
import org.lightledger.exchange.SpotFormat;
import org.lightledger.exchange.UnreadableSpotsException;
import org.lightledger.indexing.SpotAdding;
import org.lightledger.store.SpotExport;

/** Sends spots as a file, and takes those of a file. */
final class SpotExchange {
  /** So many lines of a report are shown; the rest is counted. */
  private static final int MOST_ROWS = 200;

  private final House house;
  private final SpotAdding adding;

  SpotExchange(House house, SpotAdding adding) {
    this.house = house;
    this.adding = adding;
  }

  /** Sends the chosen spots, or all. */
  void send(Context ctx) {
    SpotFormat format = format(ctx);
    List<Long> ids = ids(ctx);
    boolean withNotes = ctx.queryParam("notes") != null;
    List<ExchangedSpot> spots =
        house.ledger().read(session -> SpotExport.spots(session, ids, withNotes));
    try {
      Path folder = Files.createTempDirectory("spots");
      Path file = folder.resolve("spots." + format.code());
      try {
        SpotExport.write(file, format, spots, house.clock().instant());
        ctx.contentType(format.mediaType());
        ctx.header("Content-Disposition", "attachment; filename=\"spots." + format.code() + "\"");
        ctx.header("Cache-Control", "no-store");
        ctx.result(Files.readAllBytes(file));
      } finally {
        Files.deleteIfExists(file);
        Files.deleteIfExists(folder);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static SpotFormat format(Context ctx) {
    String code = ctx.queryParam("as");
    try {
      return SpotFormat.parse(code == null ? "" : code);
    } catch (IllegalArgumentException e) {
      throw PageProblem.badFields(
          List.of(new FieldProblem("as", "Format", "expected one of " + SpotFormat.codes())));
    }
  }

  private static List<Long> ids(Context ctx) {
    List<Long> ids = new ArrayList<>();
    for (String text : ctx.queryParams("spot")) {
      try {
        ids.add(Long.parseLong(text));
      } catch (NumberFormatException e) {
        throw PageProblem.notFound("Expected the numbers of spots, found something else.");
      }
    }
    return ids;
  }

  /** Takes the file that was sent. */
  ExchangeView take(Context ctx) {
    UploadedFile sent = ctx.isMultipartFormData() ? ctx.uploadedFile("file") : null;
    if (sent == null || sent.size() == 0) {
      ctx.status(422);
      return refused("Expected a file of spots, found none. Choose one first.");
    }
    try {
      Path file = Files.createTempFile("spots", ".part");
      try (InputStream in = sent.content()) {
        Files.copy(in, file, StandardCopyOption.REPLACE_EXISTING);
        return view(adding.add(file, ctx.formParam("try") != null), ctx);
      } catch (UnreadableSpotsException e) {
        ctx.status(422);
        return refused(String.valueOf(e.getMessage()));
      } finally {
        Files.deleteIfExists(file);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static ExchangeView refused(String why) {
    return new ExchangeView("", why, List.of(), "");
  }

  private static ExchangeView view(SpotAdding.Report report, Context ctx) {
    List<ExchangeView.Row> rows = new ArrayList<>();
    report.remarks().forEach(remark -> rows.add(new ExchangeView.Row("The file", "", remark)));
    boolean tried = ctx.formParam("try") != null;
    for (SpotAdding.Line line : report.lines()) {
      Long spotId = line.spotId();
      if (spotId == null) {
        rows.add(new ExchangeView.Row("No spot", "", line.where()));
      } else if (!line.remarks().isEmpty()) {
        boolean there = !tried || line.status() == SpotAdding.Status.KNOWN;
        rows.add(
            new ExchangeView.Row(
                line.name(), there ? "/spots/" + spotId : "", String.join("; ", line.remarks())));
      }
    }
    int hidden = Math.max(0, rows.size() - MOST_ROWS);
    return new ExchangeView(
        String.format(
            Locale.ROOT,
            "%s%d read: %d added, %d known, %d unreadable.",
            tried ? "Nothing was changed. It would be " : "",
            report.lines().size(),
            report.count(SpotAdding.Status.ADDED),
            report.count(SpotAdding.Status.KNOWN),
            report.count(SpotAdding.Status.UNREADABLE)),
        "",
        rows.subList(0, rows.size() - hidden),
        hidden == 0 ? "" : "and " + Words.count(hidden, "more line", "more lines"));
  }
}
