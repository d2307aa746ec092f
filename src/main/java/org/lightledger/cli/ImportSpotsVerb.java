package org.lightledger.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.exchange.UnreadableSpotsException;
import org.lightledger.indexing.SpotAdding;
import org.lightledger.store.Ledger;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
    name = "import-spots",
    description = {
      "Adds the points of a GeoJSON, KML, KMZ, GPX or GeoPackage file as spots.",
      "A point near a spot of the same name is that spot: what is empty there is filled."
    })
final class ImportSpotsVerb extends Verb {
  @Parameters(paramLabel = "FILE", description = "The file.")
  private Path file;

  @Option(names = "--dry-run", description = "Says what it would do, and changes nothing.")
  private boolean tryOnly;

  ImportSpotsVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    if (!Files.isRegularFile(file)) {
      throw new IllegalArgumentException("expected a file of spots, found no file " + file);
    }
    SpotAdding.Report report;
    try (Ledger ledger = openOrMake()) {
      report = new SpotAdding(ledger, services.zones()).add(file, tryOnly);
    } catch (UnreadableSpotsException e) {
      note(String.valueOf(e.getMessage()));
      return CommandLine.ExitCode.SOFTWARE;
    } catch (IOException e) {
      note("The file " + file + " can not be read; check that it belongs to you.");
      return CommandLine.ExitCode.SOFTWARE;
    }
    report.remarks().forEach(this::note);
    print(() -> json(report), () -> text(report));
    return 0;
  }

  private Map<String, @Nullable Object> json(SpotAdding.Report report) {
    return Json.fields()
        .put("dryRun", tryOnly)
        .put("read", report.lines().size())
        .put("added", report.count(SpotAdding.Status.ADDED))
        .put("known", report.count(SpotAdding.Status.KNOWN))
        .put("unreadable", report.count(SpotAdding.Status.UNREADABLE))
        .put("features", report.lines().stream().map(ImportSpotsVerb::json).toList())
        .map();
  }

  private static Map<String, @Nullable Object> json(SpotAdding.Line line) {
    return Json.fields()
        .put("status", line.status().name().toLowerCase(Locale.ROOT))
        .put("feature", line.where())
        .put("spotId", line.spotId())
        .put("name", line.spotId() == null ? null : line.name())
        .put("remarks", line.remarks())
        .map();
  }

  /** A file's words must not command the terminal. */
  private static String printable(String text) {
    return text.replaceAll("\\p{Cntrl}", "\uFFFD");
  }

  private String text(SpotAdding.Report report) {
    StringBuilder text = new StringBuilder();
    for (SpotAdding.Line line : report.lines()) {
      if (line.status() == SpotAdding.Status.UNREADABLE) {
        text.append(String.format(Locale.ROOT, "  no spot: %s%n", printable(line.where())));
      } else if (!line.remarks().isEmpty()) {
        text.append(
            String.format(
                Locale.ROOT,
                "  spot %d (%s): %s%n",
                line.spotId(),
                printable(line.name()),
                printable(String.join("; ", line.remarks()))));
      }
    }
    text.append(
        String.format(
            Locale.ROOT,
            "%d read: %d added, %d known, %d unreadable%s%n",
            report.lines().size(),
            report.count(SpotAdding.Status.ADDED),
            report.count(SpotAdding.Status.KNOWN),
            report.count(SpotAdding.Status.UNREADABLE),
            tryOnly ? "; nothing was changed" : ""));
    return text.toString();
  }
}
