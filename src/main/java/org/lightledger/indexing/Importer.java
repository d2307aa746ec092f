package org.lightledger.indexing;

import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.Iterator;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.lightledger.shot.ShotRules;
import org.lightledger.shot.zone.ZoneLookup;
import org.lightledger.store.Ledger;
import org.lightledger.sun.SunEphemeris;

/**
 * Imports files and folders into a ledger. Files are read by several threads and kept in the order
 * of their names by one, batch by batch; a batch is kept whole or not at all. Importing the same
 * files again adds nothing, so an interrupted import is finished by starting it again.
 */
public final class Importer {
  /** Files kept in one transaction: each costs a wait for the disk, a killed import loses one. */
  private static final int BATCH = 256;

  /** Files read before their turn to be kept; bounds the memory. */
  private static final int READ_AHEAD = 64;

  private final Ledger ledger;
  private final ZoneLookup zones;
  private final SunEphemeris sun;

  /**
   * An importer.
   *
   * @param ledger where the shots go
   * @param zones knows the zones of places
   * @param sun knows where the sun is
   */
  public Importer(Ledger ledger, ZoneLookup zones, SunEphemeris sun) {
    this.ledger = ledger;
    this.zones = zones;
    this.sun = sun;
  }

  /**
   * Imports.
   *
   * @param roots files and folders
   * @param options how
   * @param progress follows it and can stop it
   * @return what became of each file
   */
  public ImportReport run(List<Path> roots, ImportOptions options, ImportProgress progress) {
    FileWalk walk = FileWalk.below(roots);
    List<Path> files = walk.files();
    progress.started(files.size());
    Set<String> known = ledger.read(session -> session.shots().fingerprints());
    FileReading reading = new FileReading(new ShotRules(zones), sun, options);
    ImportBatch batches =
        new ImportBatch(ledger, zones, reading, options.joinDistanceM(), walk.failures());
    ExecutorService readers = Executors.newFixedThreadPool(options.threads());
    try {
      Deque<Future<FileReading.Result>> ahead = new ArrayDeque<>();
      Iterator<Path> next = files.iterator();
      List<FileReading.Result> batch = new ArrayList<>();
      while (!progress.cancelled() && (next.hasNext() || !ahead.isEmpty())) {
        while (next.hasNext() && ahead.size() < READ_AHEAD) {
          Path path = next.next();
          ahead.add(readers.submit(() -> reading.read(path, known::contains)));
        }
        batch.add(result(ahead.remove()));
        if (batch.size() == BATCH) {
          batches.keep(batch, progress);
          batch.clear();
        }
      }
      if (!progress.cancelled()) {
        batches.keep(batch, progress);
      }
      return batches.report(progress.cancelled());
    } finally {
      readers.shutdownNow();
    }
  }

  private static FileReading.Result result(Future<FileReading.Result> reading) {
    try {
      return reading.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("the import was interrupted; start it again to go on", e);
    } catch (ExecutionException e) {
      throw new IllegalStateException("reading a file failed unexpectedly", e.getCause());
    }
  }
}
