package org.lightledger.indexing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.shot.OwnerWord;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.spot.LightProfile;
import org.lightledger.store.Ledger;
import org.lightledger.store.StoredFile;
import org.lightledger.sun.SpaEphemeris;

/** An import that is killed in the middle and run again ends as one that nobody disturbed. */
class KilledImportTest {
  private static final int PHOTOS = 1200;
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-11-25T12:00:00Z"), ZoneOffset.UTC);

  @TempDir Path folder;

  @Test
  void endsInTheSameLedger() throws IOException, InterruptedException {
    Path photos = folder.resolve("photos");
    TestPhotos.fill(photos, PHOTOS, 3);
    Path undisturbed = folder.resolve("undisturbed");
    run(undisturbed, photos, ImportProgress.NONE);

    Path killed = folder.resolve("killed");
    int kills = 0;
    for (int after = 200; after <= 1000; after += 400) {
      kills += killAfter(after, killed, photos) ? 1 : 0;
    }
    long kept = shots(killed);
    run(killed, photos, ImportProgress.NONE);

    assertThat(kills).isEqualTo(3);
    assertThat(kept).isPositive().isLessThan(PHOTOS);
    assertThat(profiles(killed)).isEqualTo(profiles(undisturbed));
    assertThat(shots(undisturbed)).as("a raw file and its JPEG are one shot").isEqualTo(PHOTOS);
    assertThat(shotsByFile(killed)).isEqualTo(shotsByFile(undisturbed)).hasSize(PHOTOS * 4 / 3);
  }

  private static Map<Path, Long> shotsByFile(Path ledgerFolder) {
    try (Ledger ledger = Ledger.open(ledgerFolder, CLOCK)) {
      return ledger.read(
          session ->
              session.files().all().stream()
                  .collect(Collectors.toMap(StoredFile::path, StoredFile::shotId)));
    }
  }

  /** Imports in a Java of its own and kills that once it has told of so many files. */
  private static boolean killAfter(int files, Path ledger, Path photos)
      throws IOException, InterruptedException {
    Process child =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                Child.class.getName(),
                ledger.toString(),
                photos.toString())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    int told = 0;
    try (BufferedReader out =
        new BufferedReader(new InputStreamReader(child.getInputStream(), StandardCharsets.UTF_8))) {
      while (told < files && out.readLine() != null) {
        told++;
      }
      child.destroyForcibly();
    }
    return child.waitFor() != 0;
  }

  private static long shots(Path ledgerFolder) {
    try (Ledger ledger = Ledger.open(ledgerFolder, CLOCK)) {
      return ledger.read(session -> session.shots().counts().all());
    }
  }

  private static List<LightProfile> profiles(Path ledgerFolder) {
    try (Ledger ledger = Ledger.open(ledgerFolder, CLOCK)) {
      return ledger.read(
          session ->
              session.spots().all().stream()
                  .map(spot -> session.spots().profile(spot.id()).orElseThrow())
                  .toList());
    }
  }

  private static void run(Path ledgerFolder, Path photos, ImportProgress progress) {
    try (Ledger ledger = Ledger.open(ledgerFolder, CLOCK)) {
      new Importer(ledger, new PlaceZones(), new SpaEphemeris())
          .run(List.of(photos), new ImportOptions(OwnerWord.NOTHING, 2, 25), progress);
    }
  }

  /** The process that gets killed: says a line for each file that is kept for good. */
  static final class Child {
    private Child() {}

    public static void main(String[] args) {
      run(
          Path.of(args[0]),
          Path.of(args[1]),
          new ImportProgress() {
            @Override
            public void started(int files) {}

            @Override
            public void done(FileReport file) {
              System.out.println(file.status());
            }
          });
    }
  }
}
