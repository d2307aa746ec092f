package org.lightledger.indexing;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;
import org.lightledger.shot.zone.ZoneLookup;
import org.lightledger.store.FileStatus;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredFile;

/** Keeps what was read, one transaction for each batch, and tallies the report. */
final class ImportBatch {
  private final Ledger ledger;
  private final ZoneLookup zones;
  private final FileReading reading;
  private final double joinDistanceM;
  private final Tally tally = new Tally();
  private int otherFiles;
  private int spotsMade;

  ImportBatch(Ledger ledger, ZoneLookup zones, FileReading reading, double joinDistanceM) {
    this.ledger = ledger;
    this.zones = zones;
    this.reading = reading;
    this.joinDistanceM = joinDistanceM;
  }

  void keep(List<FileReading.Result> results, ImportProgress progress) {
    List<FileReading.Result> images =
        results.stream().filter(result -> !(result instanceof FileReading.Other)).toList();
    otherFiles += results.size() - images.size();
    progress.passedOver(results.size() - images.size());
    if (images.isEmpty()) {
      return;
    }
    List<FileReport> kept =
        ledger.write(
            session -> {
              SpotPlacing placing = new SpotPlacing(session, zones, joinDistanceM);
              List<FileReport> lines = new ArrayList<>();
              for (FileReading.Result result : images) {
                lines.add(keep(result, session, placing));
              }
              placing.learnFacings();
              spotsMade += placing.made();
              return lines;
            });
    for (FileReport report : kept) {
      tell(report, progress);
    }
  }

  /** Something below the roots could not be reached. */
  void tell(FileReport report, ImportProgress progress) {
    tally.add(report);
    progress.done(report);
  }

  private FileReport keep(FileReading.Result result, LedgerSession session, SpotPlacing placing) {
    if (result instanceof FileReading.NewShot found) {
      Optional<Long> known = session.shots().idOf(found.sha256());
      if (known.isPresent()) {
        return again(found.source(), found.sha256(), known.get(), session);
      }
      SameShot sameShot = new SameShot(session, placing, reading);
      Optional<Long> joined = sameShot.join(found.source().path(), found.shot().evidence());
      if (joined.isEmpty()) {
        return add(found, session, placing);
      }
      record(found.source(), found.sha256(), FileStatus.READ, joined.get(), List.of(), session);
      return Reports.joined(found.source().path(), joined.get());
    }
    if (result instanceof FileReading.KnownShot known) {
      long shotId = session.shots().idOf(known.sha256()).orElseThrow();
      return again(known.source(), known.sha256(), shotId, session);
    }
    return fail((FileReading.Failed) result, session);
  }

  private static FileReport add(
      FileReading.NewShot found, LedgerSession session, SpotPlacing placing) {
    Shot shot = found.shot();
    SpotPlacing.Added added = placing.add(shot, found.sha256(), found.sun());
    record(found.source(), found.sha256(), FileStatus.READ, added.shotId(), List.of(), session);
    return new FileReport(
        found.source().path(),
        shot.needsAttention() ? FileReport.Status.NEEDS_ATTENTION : FileReport.Status.ADDED,
        added.shotId(),
        shot,
        found.sun(),
        added.spotId(),
        shot.problems());
  }

  private static FileReport again(
      FileReading.Source source, String sha256, long shotId, LedgerSession session) {
    if (!session.files().known(source.path(), sha256)) {
      record(source, sha256, FileStatus.READ, shotId, List.of(), session);
    }
    return Reports.known(source.path(), shotId);
  }

  private static FileReport fail(FileReading.Failed failed, LedgerSession session) {
    FileStatus status =
        failed.problem().kind() == Problem.Kind.FORMAT_NOT_READ
            ? FileStatus.FORMAT_NOT_READ
            : FileStatus.UNREADABLE;
    record(failed.source(), null, status, null, List.of(failed.problem()), session);
    return Reports.unreadable(failed.source().path(), failed.problem());
  }

  private static void record(
      FileReading.Source source,
      @Nullable String sha256,
      FileStatus status,
      @Nullable Long shotId,
      List<Problem> problems,
      LedgerSession session) {
    session
        .files()
        .record(
            new StoredFile(
                source.path(),
                source.sizeBytes(),
                source.modified(),
                sha256,
                status,
                shotId,
                problems));
  }

  ImportReport report(boolean cancelled) {
    return new ImportReport(tally.lines(), tally.counts(), otherFiles, spotsMade, cancelled);
  }
}
