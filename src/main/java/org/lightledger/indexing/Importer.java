package org.lightledger.indexing;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.lightledger.shot.ShotRules;
import org.lightledger.shot.zone.ZoneLookup;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredFile;
import org.lightledger.sun.SunEphemeris;

/**
 * Imports files and folders into a ledger. Files are read by several threads and kept in the order
 * of their names by one, batch by batch; a batch is kept whole or not at all. Importing the same
 * files again adds nothing, so an interrupted import is finished by starting it again.
 */
public final class Importer {
  /** Files kept in one transaction: each costs a wait for the disk, a killed import loses one. */
  private static final int BATCH = 512;

  /**
   * Enough for a transaction, so that large files do not make the owner wait; own choice, bytes.
   */
  private static final long BATCH_BYTES = 256L * 1024 * 1024;

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
    progress.started(FileWalk.count(roots, progress));
    FileWalk walk = FileWalk.below(roots);
    Set<String> known = ledger.read(session -> session.shots().fingerprints());
    FileReading reading = new FileReading(new ShotRules(zones), sun, options);
    ImportBatch batches = new ImportBatch(ledger, zones, reading, options.joinDistanceM());
    ReadAhead<FileReading.Result> ahead = new ReadAhead<>(options.threads());
    try {
      List<FileReading.Result> batch = new ArrayList<>();
      long bytes = 0;
      while (!progress.cancelled() && (walk.hasNext() || !ahead.isEmpty())) {
        while (ahead.hasRoom() && walk.hasNext()) {
          FileWalk.Step step = walk.next();
          if (step instanceof FileWalk.Met met) {
            ahead.add(() -> read(met, reading, known));
          } else if (step instanceof FileWalk.Refused refused) {
            batches.tell(refused.line(), progress);
          }
        }
        if (!ahead.isEmpty()) {
          FileReading.Result result = ahead.next();
          batch.add(result);
          bytes += result.source().sizeBytes();
        }
        if (batch.size() == BATCH || bytes >= BATCH_BYTES) {
          batches.keep(batch, progress);
          batch.clear();
          bytes = 0;
        }
      }
      if (!progress.cancelled()) {
        batches.keep(batch, progress);
      }
      return batches.report(progress.cancelled());
    } finally {
      ahead.stop();
    }
  }

  /**
   * The owner's changes by hand.
   *
   * @param session a session that may write
   * @return what can be changed, good as long as the session
   */
  public SpotEditing editing(LedgerSession session) {
    return new SpotEditing(session, zones, JoinDistance.of(session));
  }

  /**
   * Adds spots from the files of other programs.
   *
   * @return what adds them to this ledger
   */
  public SpotAdding spotAdding() {
    return new SpotAdding(ledger, zones);
  }

  /**
   * How this ledger's imports go when nothing else is asked for.
   *
   * @return nothing added, as many threads as processors, the owner's join distance
   */
  public ImportOptions options() {
    ImportOptions standard = ImportOptions.standard();
    double joinDistanceM = ledger.read(JoinDistance::of);
    return new ImportOptions(standard.word(), standard.threads(), joinDistanceM);
  }

  private FileReading.Result read(FileWalk.Met met, FileReading reading, Set<String> known) {
    FileReading.Source source = FileReading.Source.of(met.file(), met.attributes());
    Optional<String> sha256 = known.isEmpty() ? Optional.empty() : unchanged(source);
    return sha256.isPresent()
        ? new FileReading.KnownShot(source, sha256.get())
        : reading.read(met, known::contains);
  }

  /**
   * The content of a file that is as the ledger met it, by its length and its time to the
   * millisecond. Such a file is not read again, so that an import that was stopped goes on fast.
   */
  private Optional<String> unchanged(FileReading.Source source) {
    return ledger
        .read(session -> session.files().find(source.path()))
        .filter(
            known ->
                known.shotId() != null
                    && known.sizeBytes() == source.sizeBytes()
                    && known.modified().toEpochMilli() == source.modified().toEpochMilli())
        .map(StoredFile::sha256);
  }
}
