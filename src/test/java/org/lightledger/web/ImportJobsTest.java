package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.indexing.Importer;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.store.Ledger;
import org.lightledger.sun.SpaEphemeris;

/** How imports in the background end. */
@Timeout(60)
class ImportJobsTest {
  private static final byte[] PHOTO =
      TestPhotos.shot("2026:11:20 17:00:00", "+01:00", 41.95, -6.61, 232.0, 1);

  @TempDir Path folder;

  private Ledger ledger() {
    return Ledger.open(
        folder.resolve("ledger"),
        Clock.fixed(Instant.parse("2026-11-25T12:00:00Z"), ZoneOffset.UTC));
  }

  private static ImportJobs.Job.State end(ImportJobs.Job job) throws InterruptedException {
    while (job.running()) {
      Thread.sleep(20);
    }
    return job.state();
  }

  /** Whether this is the thread that keeps what others have read. */
  private static boolean isImporting() {
    return Thread.currentThread().getName().equals("folder-import");
  }

  /** Memory that runs out in one import says nothing of the next. */
  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void anImportThatRunsOutOfMemoryHasFailedAndAnotherCanBeStarted(boolean watch)
      throws InterruptedException {
    Path photos = TestSite.folderOf(folder.resolve("photos"), "a.jpg", PHOTO);
    PlaceZones zones = new PlaceZones();
    AtomicBoolean scarce = new AtomicBoolean(true);
    try (Ledger ledger = ledger();
        ImportJobs jobs =
            new ImportJobs(
                new Importer(
                    ledger,
                    (place, errorM) -> {
                      if (isImporting() && scarce.getAndSet(false)) {
                        throw new OutOfMemoryError("of the test");
                      }
                      return zones.zonesAt(place, errorM);
                    },
                    new SpaEphemeris()),
                Duration.ofMillis(100))) {
      assertThat(end(jobs.start(photos, watch))).isEqualTo(ImportJobs.Job.State.FAILED);

      assertThat(end(jobs.start(photos, false))).isEqualTo(ImportJobs.Job.State.DONE);
      long shots = ledger.read(session -> session.shots().counts().all());
      assertThat(shots).isEqualTo(1);
    }
  }
}
