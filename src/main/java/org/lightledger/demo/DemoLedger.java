package org.lightledger.demo;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.stream.Stream;
import org.lightledger.indexing.ImportOptions;
import org.lightledger.indexing.ImportProgress;
import org.lightledger.indexing.ImportReport;
import org.lightledger.indexing.Importer;
import org.lightledger.indexing.MapAdding;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.NearSpot;

/** Fills a ledger with the demo's scouting shots and names its spots. */
public final class DemoLedger {
  private static final String SPOTS_FILE = "spots.csv";
  private static final String REGION = "region";
  private static final String EXTRACT = ".osm.gz";

  private DemoLedger() {}

  /**
   * Imports the sample photos and gives the spots their names. Doing it again adds nothing and
   * keeps names that were changed meanwhile.
   *
   * @param folder the ledger's folder; the photos are copied into it, and beside them the elevation
   *     files and the map extract of their region
   * @param ledger the open ledger of that folder
   * @param importer imports into that ledger
   * @param clock tells when the region's files were added
   * @param progress follows the import
   * @return the import's report
   */
  public static ImportReport fill(
      Path folder, Ledger ledger, Importer importer, Clock clock, ImportProgress progress) {
    Path photos = folder.resolve("sample-photos");
    SamplePhotos.unpackTo(photos);
    Path region = folder.resolve(REGION);
    boolean fresh = !Files.exists(region);
    SamplePhotos.unpackRegionTo(region);
    if (fresh) {
      addRegion(region, ledger, clock);
    }
    ImportReport report = importer.run(List.of(photos), ImportOptions.standard(), progress);
    if (report.spotsMade() > 0) {
      List<SpotsFile.Line> lines = SpotsFile.read(photos.resolve(SPOTS_FILE));
      ledger.write(
          session -> {
            lines.forEach(line -> name(line, session));
            return lines.size();
          });
    }
    return report;
  }

  /** As an owner does with the files of a real region. */
  private static void addRegion(Path region, Ledger ledger, Clock clock) {
    ledger.write(session -> session.elevation().add(region, clock.instant()));
    try (Stream<Path> files = Files.list(region)) {
      for (Path file : files.filter(path -> path.toString().endsWith(EXTRACT)).toList()) {
        new MapAdding(ledger, clock).add(file);
      }
    } catch (IOException e) {
      throw new UncheckedIOException("the map of the demo's region can not be added", e);
    }
  }

  private static void name(SpotsFile.Line line, LedgerSession session) {
    session
        .spotSearch()
        .nearest(line.position(), ImportOptions.STANDARD_JOIN_DISTANCE_M)
        .map(NearSpot::spot)
        .ifPresent(
            spot ->
                session
                    .spots()
                    .update(
                        new Spot(
                            spot.id(),
                            line.name(),
                            line.area(),
                            spot.position(),
                            spot.zone(),
                            spot.open(),
                            spot.facings(),
                            line.notes(),
                            line.cautions())));
  }
}
