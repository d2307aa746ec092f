package org.lightledger.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lightledger.exchange.ExchangedSpot;
import org.lightledger.exchange.SpotFormat;
import org.lightledger.store.Ledger;
import org.lightledger.store.SpotExport;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
    name = "export",
    description = {
      "Writes spots into a file that other programs read.",
      "Nothing of shots, shortlists or clients is in it."
    })
final class ExportVerb extends Verb {
  @Parameters(paramLabel = "FILE", description = "The new file.")
  private Path target;

  @Option(
      names = "--as",
      paramLabel = "FORMAT",
      description = "geojson, kml, gpx or gpkg; by the file's ending when it is missing.")
  private @Nullable String format;

  @Option(
      names = "--spots",
      paramLabel = "ID",
      split = ",",
      description = "These spots alone, by their numbers.")
  private List<Long> spotIds = List.of();

  @Option(
      names = "--with-notes",
      description = "Your notes as well, which are private and otherwise stay here.")
  private boolean withNotes;

  ExportVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    SpotFormat chosen = format();
    int count;
    try (Ledger ledger = open()) {
      spotIds.forEach(id -> spot(ledger, id));
      List<ExchangedSpot> spots =
          ledger.read(session -> SpotExport.spots(session, spotIds, withNotes));
      SpotExport.write(target, chosen, spots, services.clock().instant());
      count = spots.size();
    }
    print(
        () ->
            Json.fields()
                .put("file", target.toString())
                .put("format", chosen.code())
                .put("spots", count)
                .put("notes", withNotes)
                .map(),
        () ->
            String.format(
                Locale.ROOT,
                "Wrote %d %s as %s to %s%n",
                count,
                count == 1 ? "spot" : "spots",
                chosen.label(),
                target));
    return 0;
  }

  private SpotFormat format() {
    String code = format;
    if (code != null) {
      return named("--as", () -> SpotFormat.parse(code));
    }
    return SpotFormat.ofFile(String.valueOf(target.getFileName()))
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "expected a file that ends in one of "
                        + SpotFormat.codes()
                        + ", found "
                        + target.getFileName()
                        + "; --as names the format"));
  }
}
